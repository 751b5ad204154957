package bot_test

import (
	"strings"
	"testing"
)

// Cooked food and raw are kept apart: what comes in cooked is a line of its own, what
// is drawn is what was said, and ideas for it heat it through and raw food's do not
// come up.
func TestCookedApart(t *testing.T) {
	r := newRoom(t)
	for _, c := range []struct{ say, want string }{
		{"got 1kg basmati rice, 2kg potatoes", "Basmati rice 1 kg and potato 2 kg in."},
		{"got 300g cooked rice", "Cooked rice 300 g in. 300 g left."},
		{"used 100g rice in the pilaf", "Basmati rice 100 g into the pilaf. 900 g left."},
		{"used 100g cooked rice in the salad", "Cooked rice 100 g into the salad. 200 g left."},
		{"there's 150g cooked rice left", "Cooked rice is 150 g, 50 g less than the record."},
		{"got 200g leftover roast potatoes", "Leftover roast potato 200 g in. 200 g left."},
		{"got 100g mashed potato", "Mashed potato 100 g in. 100 g left."},
		{"used 50g roast potatoes in the hash", "Leftover roast potato 50 g into the hash. 150 g left."},
		{"used 300g potato in the soup", "Potato 300 g into the soup. 1.7 kg left."},
		{"how much cooked rice?", "Cooked rice: 150 g."},
		{"how much roast potato have we got?", "Leftover roast potato: 150 g."},
		{"how much rice have we got?", "Basmati rice: 900 g."},
		{"there's 100g cooked leek left", "Cooked, so it does not count the leek: nothing was written."},
		{"got 300g cooked quinoa", "Cooked quinoa 300 g in."},
		{"got 1kg quinoa for the cupboard", "Quinoa 1 kg in. 1 kg left."},
		{"made 2l leek soup and 1kg chicken curry", "Leek soup 2 l and chicken curry 1 kg made."},
	} {
		if got := r.say("1", "larder", c.say).Text; !strings.HasPrefix(got, c.want) {
			t.Errorf("%q: %q, want %q", c.say, got, c.want)
		}
	}
	got := r.say("1", "larder", "ideas for the cooked rice")
	if len(got.Ideas) == 0 || !strings.Contains(got.Text, "heat once, steaming hot") {
		t.Errorf("%s", got.Text)
	}
	for _, i := range got.Ideas {
		if i.Uses[0].Item != "cooked rice" {
			t.Errorf("%+v", i)
		}
	}
}
