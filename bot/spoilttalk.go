package bot

import (
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// spoiltAmount writes what was thrown away as it was no good, where the message says how much: "salmon smells off, 5kg
// binned". Done is false where it does not, or no food on hand is meant.
func (t *turn) spoiltAmount(why string) (r Reply, done bool, err error) {
	if !strings.ContainsAny(t.m.Text, "0123456789") {
		return r, false, nil
	}
	q := t.reader().SpoiltTalk(t.m.Text)
	if q == nil || q.About != language.AboutSpoiltSo || q.Food == "" {
		return r, false, nil
	}
	return t.spoiltTalk(why)
}

// spoiltTalk writes that food was thrown away as it was no good, or asks how much that was. It is the
// last to be asked: what is said with an amount is read before.
func (t *turn) spoiltTalk(why string) (r Reply, done bool, err error) {
	q := t.reader().SpoiltTalk(t.m.Text)
	if q == nil || q.Food == "" {
		return r, false, nil
	}
	d := draft{Act: pantry.Bin, Food: strings.ToLower(q.Food), Day: t.day(), Plainly: true}
	if q.About == language.AboutSpoiltSo {
		d.Amount = q.Amount
	}
	if q.About == language.AboutSpoiltAll {
		d.Amount = language.Amount{How: language.Share, N: measure.Whole(1), Said: "all"}
	}
	r, err = t.write([]draft{d}, why)
	return r, r.Kind != Silent, err
}
