package bot

import (
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// across turns a volume into a weight or a weight into a volume, by what the
// tables say of the food; as water where they say nothing.
func across(a measure.Amount, from measure.Kind, f *food.Food) (measure.Amount, error) {
	mg, ul := density(f, a, from)
	if from == measure.Millilitre {
		return measure.Ratio{Num: mg, Den: ul}.Of(a)
	}
	return measure.Ratio{Num: ul, Den: mg}.Of(a)
}

// US cup and tablespoon in microlitres: the volumes that the catalogue's cup
// and tablespoon weights fill (USDA SR28; NIST Handbook 44, Appendix C).
const (
	usCup  = 236_588
	usTbsp = 14_787
)

// density gives so many milligrams for so many microlitres: by the spoon for
// spoonfuls, else by the cup, else by the density.
func density(f *food.Food, a measure.Amount, from measure.Kind) (mg, ul int64) {
	switch {
	case f == nil:
		return 1, 1
	case f.TbspMg > 0 && from == measure.Millilitre && a <= 60_000:
		return int64(f.TbspMg), usTbsp
	case f.CupMg > 0:
		return int64(f.CupMg), usCup
	case f.TbspMg > 0:
		return int64(f.TbspMg), usTbsp
	case f.Density > 0:
		return f.Density, 1000
	}
	return 1, 1
}
