package bot

import (
	"slices"

	"scullion/pantry/food"
)

// Card is what is known of a food, as `scullion food --json` prints it. Weights
// are grams as purchased, shares per cent of that, energy and nutrients per
// 100 g edible; what is not known is left out.
type Card struct {
	Name       string             `json:"name"`
	Names      []string           `json:"names,omitempty"`
	Group      string             `json:"group"`
	Kinds      []string           `json:"kinds,omitempty"`
	Unit       string             `json:"unit"`
	Shelf      string             `json:"shelf"`
	Keeper     bool               `json:"keeper"`
	Piece      string             `json:"piece,omitempty"`
	PieceG     float64            `json:"piece_g,omitempty"`
	LowG       float64            `json:"low_g,omitempty"`
	HighG      float64            `json:"high_g,omitempty"`
	Parts      map[string]float64 `json:"parts,omitempty"`
	Edible     float64            `json:"edible_pct"`
	Refuse     int                `json:"refuse_pct"`
	Trimmings  []TrimCard         `json:"trimmings,omitempty"`
	Place      string             `json:"place"`
	Date       string             `json:"date"`
	Cupboard   int                `json:"cupboard_days,omitempty"`
	Fridge     int                `json:"fridge_days,omitempty"`
	Freezer    int                `json:"freezer_days,omitempty"`
	Allergens  []string           `json:"allergens"`
	MayHold    []string           `json:"may_hold"`
	Unknown    bool               `json:"allergens_unknown,omitempty"`
	US         []string           `json:"us_allergens"` // of the nine that US law names
	Vegan      string             `json:"vegan"`
	Vegetarian string             `json:"vegetarian"`
	WhyNot     []string           `json:"why_not,omitempty"`
	Kcal       float64            `json:"kcal,omitempty"`
	Protein    float64            `json:"protein_g,omitempty"`
	Fat        float64            `json:"fat_g,omitempty"`
	Carb       float64            `json:"carb_g,omitempty"`
	Fibre      float64            `json:"fibre_g,omitempty"`
	Source     string             `json:"source"`
}

// TrimCard is one trimming of a Card.
type TrimCard struct {
	Name   string  `json:"name"`
	When   string  `json:"when,omitempty"`
	Share  float64 `json:"share_pct"`
	Eaten  string  `json:"eaten"`
	Use    string  `json:"use"`
	Source string  `json:"source"`
}

// FoodCard gives a food's card.
func FoodCard(f *food.Food) Card {
	c := Card{Name: f.Name, Names: append(slices.Clone(f.Names), f.General...), Group: f.Group, Kinds: f.Kinds, Unit: f.Unit.String(),
		Shelf: string(f.Shelf), Keeper: f.Keeper, Piece: f.Piece, Refuse: f.Refuse, Place: f.Keeps.Place, Date: f.Keeps.Date,
		Cupboard: f.Keeps.Cup, Fridge: f.Keeps.Fridge, Freezer: f.Keeps.Freezer, Unknown: f.Unasked, US: append([]string{}, f.USAllergens()...), Vegan: f.Vegan, Vegetarian: f.Meatless,
		Allergens: append([]string{}, f.Allergen...), MayHold: append([]string{}, f.MayCarry...), WhyNot: f.WhyNot,
		Kcal: f.Kcal, Protein: f.Protein, Fat: f.Fat, Carb: f.Carb, Fibre: f.Fibre, Source: f.Source}
	e := f.Edible()
	c.Edible = float64(e.Num*1000/e.Den) / 10
	if f.PieceMg > 0 {
		low, high := f.PieceSpread()
		c.PieceG, c.LowG, c.HighG = f.PieceMg.Units(), low.Units(), high.Units()
	}
	for _, p := range f.Parts {
		if c.Parts == nil {
			c.Parts = map[string]float64{}
		}
		c.Parts[p.Name] = p.Mg.Units()
	}
	for _, t := range f.Trim {
		c.Trimmings = append(c.Trimmings, TrimCard{t.Name, t.When, float64(t.Share) / 10, string(t.Eaten), t.Use, t.Source})
	}
	return c
}
