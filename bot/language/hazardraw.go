package language

// Food that is not cooked through, or that something raw got on.
const (
	// AboutUndercooked is food that is not cooked through by its looks.
	AboutUndercooked About = "undercooked"
	// AboutDripped is food that raw meat or its juice got on.
	AboutDripped About = "dripped"
)

// pink reads of food that was found raw inside: "chicken still pink near the bone", "pie came back raw".
func (h *hazard) pink() *Question {
	for i := range h.t {
		if !h.is("pink", i) || h.denied(i) || h.asked(i) {
			continue
		}
		if food, also := h.subject(h.starts(i), i); food != "" {
			return &Question{About: AboutUndercooked, Food: food, Also: also}
		}
	}
	return nil
}

// dripped reads of food that raw meat got on: "raw chicken juice on the ham", "chicken leaked on the lettuce".
func (h *hazard) dripped() *Question {
	for i := range h.t {
		e := h.at("rawof", i)
		if e == i {
			if e = h.at("flesh", i); e == i || !h.is("drips", h.skip("link", e, "")) {
				continue
			}
		}
		if e < len(h.t) && h.r.knows(h.t[i].w+" "+h.t[e].w) && h.t[i].w == "blood" { // "blood orange"
			continue
		}
		if h.denied(i) || !h.any("drips", i, h.ends(i)) {
			continue
		}
		for k := h.ends(i) - 1; k >= e; k-- {
			x := h.at("onto", k)
			if x == k {
				continue
			}
			if food, also := h.foods(x, h.foodStop(x)); food != "" {
				return &Question{About: AboutDripped, Food: food, Also: also}
			}
			break
		}
	}
	return nil
}
