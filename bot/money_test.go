package bot_test

import (
	"strings"
	"testing"
)

// Costs in different currencies are told apart, each by the
// share of the lot that it is of; unknown costs are said.
func TestCostsApart(t *testing.T) {
	before := []string{"got 1kg leeks £2", "used 500g leeks in the stew", "got 1kg leeks $3", "got 400g butter £1.50", "got 300g flour", "used 750g leeks in the stew",
		"used 200g butter in the stew", "used 100g flour in the stew", "the stew was for 10", "binned 250g leeks", "got 500g salt €2 for the cupboard"}
	for text, want := range map[string]string{
		"what did the stew cost?":           "Stew: £2.75 and $0.75. A portion, for 10: £0.28 and $0.08. Flour has no cost.",
		"what did the leeks cost?":          "Leek: £2.00 and $3.00 for 2 kg.",
		"what did we bin in money?":         "Binned: $0.75 of leek (250 g).",
		"what did we spend on the delivery": "All that came in: £3.50, $3.00 and €2.00, €2.00 of it for the cupboard",
		"what did it cost?":                 "$0.75 into dishes; $0.75 binned, $1.50 carried over, of $3.00 that was there.",
	} {
		if r := answerTo(t, before, text); !strings.Contains(r.Text, want) {
			t.Errorf("%q: %q, not %q", text, r.Text, want)
		}
	}
}

// The dish's latest cooking counts, and a dish of just that name before others.
func TestCostOfWhich(t *testing.T) {
	before := []string{"got 2kg leeks £4", "used 1kg leeks in the leek tart", "used 500g leeks in the onion tart", "wrap up", "got 1kg carrots £1", "used 100g carrots in the stew", "used 200g carrots in the beef stew"}
	for text, want := range map[string]string{
		"what did the stew cost":     "Stew: £0.10",
		"what did the tart cost?":    "Onion tart: £1.00",
		"how much was the leek tart": "Leek tart: £2.00",
		"what did the pudding cost?": "No dish is logged as pudding.",
	} {
		if r := answerTo(t, before, text); !strings.Contains(r.Text, want) || want == "" && r.Text != "" {
			t.Errorf("%q: %q, not %q", text, r.Text, want)
		}
	}
}
