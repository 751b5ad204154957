package picture

import "image/color"

// theme is what a picture is coloured with: masking tape and marker on steel. Whatever
// they tell is told by a figure, a word or a form too.
type theme struct {
	steel, grain, seam color.RGBA // the surface, its brushing, the grooves between lanes
	rule, tick         color.RGBA // the ruler, and what is cut into it
	grid               color.RGBA // the minutes, carried down
	tape, shade        color.RGBA // tape and its shadow
	ink                color.RGBA // words on tape
	chalk, dim         color.RGBA // words on steel; the less important ones
	twine, strand      color.RGBA // the string for now
	hatched            color.RGBA // what is claimed
	marks              []color.RGBA
}

func hex(x uint32) color.RGBA {
	return color.RGBA{uint8(x >> 16), uint8(x >> 8), uint8(x), 0xff}
}

// marks are the markers that dishes are told by, beside their figures: blue, green, brick,
// violet, teal, rose. All are dark enough for figures in the colour of tape.
var marks = []color.RGBA{hex(0x1b4f8c), hex(0x2a6230), hex(0x97380f), hex(0x5a3587), hex(0x0d5c63), hex(0x8c2253)}

var light = theme{
	steel: hex(0xd5dade), grain: hex(0xd1d6da), seam: hex(0xb3bbc1),
	rule: hex(0xbcc4ca), tick: hex(0x37424a), grid: hex(0xc2c9ce),
	tape: hex(0xf4e6bd), shade: hex(0xa9b0b5),
	ink: hex(0x1d2124), chalk: hex(0x1d2124), dim: hex(0x434e56),
	hatched: hex(0xb29a5f), twine: hex(0xb0271c), strand: hex(0xe0685c), marks: marks,
}

var dark = theme{
	steel: hex(0x1d2226), grain: hex(0x20252a), seam: hex(0x3b444b),
	rule: hex(0x323a41), tick: hex(0xc3ccd3), grid: hex(0x2d353b),
	tape: hex(0xe6d6a6), shade: hex(0x0f1214),
	ink: hex(0x1b1e20), chalk: hex(0xefe9da), dim: hex(0xb4bec6),
	hatched: hex(0xa48c50), twine: hex(0xf07a6a), strand: hex(0x9c3a2e), marks: marks,
}

func (o Options) theme() *theme {
	if o.Inline {
		return classed
	}
	if o.Dark {
		return &dark
	}
	return &light
}
