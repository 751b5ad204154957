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

// What dishes took out of the cupboard is paid for with them, whether it is eaten, put by or binned: what a service
// cost is what its dishes did, and what there was comes to the same whatever becomes of them.
func TestCupboardIsPaidWithTheDish(t *testing.T) {
	before := []string{"got 1kg minced beef £8", "got 2kg rice £4 for the cupboard", "got 1l oil for the cupboard", "used 500g minced beef in the hash", "used 500g rice in the hash"}
	for _, c := range []struct {
		then []string
		want string
	}{
		{nil, "£5.00 into dishes; £4.00 carried over, of £9.00 that was there."},
		{[]string{"500g hash left"}, "£2.50 into dishes; £6.50 carried over, of £9.00 that was there."},
		{[]string{"500g hash left", "binned 250g hash"}, "£2.50 into dishes; £1.25 binned, £5.25 carried over, of £9.00 that was there."},
		{[]string{"binned 1kg hash"}, "£0.00 into dishes; £5.00 binned, £4.00 carried over, of £9.00 that was there."},
		{[]string{"gave 200g hash to the shelter"}, "£4.00 into dishes; £1.00 given away, £4.00 carried over, of £9.00 that was there."},
		{[]string{"used 100ml oil in the hash"}, "£5.00 into dishes; £4.00 carried over, of £9.00 that was there. Of 91 g nobody said the cost."},
		{[]string{"put back 250g rice"}, "£4.50 into dishes; £4.00 carried over, of £8.50 that was there."},
	} {
		if r := answerTo(t, append(before[:len(before):len(before)], c.then...), "what did the service cost?"); !strings.Contains(r.Text, c.want) {
			t.Errorf("%q: %q, not %q", c.then, r.Text, c.want)
		}
	}
	if r := answerTo(t, before, "what did the hash cost?"); !strings.Contains(r.Text, "Hash: £5.00") {
		t.Errorf("the dish: %q", r.Text)
	}
}
