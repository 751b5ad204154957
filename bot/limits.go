package bot

// limits are at what degrees C and for how many hours food may be, by the rules of a country.
type limits struct {
	cold    int    // what must be chilled is at that or less
	hot     int    // hot food is kept at that or more
	through int    // in the middle it is cooked or reheated through
	out     int    // hours above cold after which what must be chilled is binned
	enough  string // what is said of food that is that hot, and who says so
	proof   string // through, in words, and who says so
}

// mostHoursHot is for how many hours hot food may be below what it is kept at. Food Safety and Hygiene (England)
// Regulations 2013, Schedule 4; USDA FSIS, of any food.
const mostHoursHot = 2

// limits gives those of the kitchen's country. UK: Food Safety and Hygiene (England) Regulations 2013, Schedule 4, and UK
// FSA. US: FDA Food Code 2022, 3-501.16 (41 F, 135 F) and 3-401.11 (165 F), and foodsafety.gov for the hours (from
// memory).
func (t *turn) limits() limits {
	if t.country() == "US" {
		return limits{cold: 5, hot: 57, through: 74, out: mostHoursHot,
			enough: "hot enough, which is 74 C or more in the middle of poultry and of what is reheated (foodsafety.gov)",
			proof:  "74 C in the middle of poultry and of what is reheated, 71 C of minced meat (foodsafety.gov)"}
	}
	return limits{cold: 8, hot: 63, through: 75, out: 4,
		enough: "hot enough where it held that for 30 s (UK FSA)",
		proof:  "75 C for 30 s or 70 C for 2 minutes in the middle (UK FSA)"}
}

// inCelsius gives whole degrees C of degrees F.
func inCelsius(f int) int {
	n := (f - 32) * 5
	if n < 0 {
		return (n - 4) / 9
	}
	return (n + 4) / 9
}
