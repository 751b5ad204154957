package bot

import "fmt"

// talk reads one kind of message and does what it says. Done is false where the message is
// none of that kind. Why is the reason of the revision that the message makes.
type talk func(t *turn, why string) (r Reply, done bool, err error)

// anyway is a talk that does the same whatever the reason.
func anyway(f func(*turn) (Reply, bool, error)) talk {
	return func(t *turn, _ string) (Reply, bool, error) { return f(t) }
}

// first gives what the first of some kinds of talk answers that the message is one of.
func (t *turn) first(list []talk, why string) (r Reply, done bool, err error) {
	for _, x := range list {
		if r, done, err := x(t, why); done || err != nil {
			return r, true, err
		}
	}
	return r, false, nil
}

// talks are the kinds of talk that have a reading of their own, before the message is read as
// what went where: the first that a message is one of has it, and so the narrower stand before
// the wider.
func talks() []talk {
	return []talk{
		anyway((*turn).mendToldTalk),
		anyway((*turn).partSwapTalk),
		(*turn).touchTalk,
		(*turn).crossedTalk,
		anyway((*turn).marinadeTalk),
		anyway((*turn).meatOffTalk),
		anyway((*turn).needForTalk),
		anyway((*turn).inPlain),
		(*turn).askedOfIt,
		anyway((*turn).portionsAsked),
		(*turn).claimTalk,
		anyway((*turn).cookedLeft),
		(*turn).saidOf,
		anyway((*turn).notInIt),
		anyway((*turn).allergensTold),
		anyway((*turn).awayTalk),
		anyway((*turn).partsAmiss),
		(*turn).okForTalk,
		(*turn).holdTalk,
		(*turn).tableTalk,
		anyway((*turn).planning),
		anyway((*turn).refine),
		(*turn).cookedCame,
		(*turn).servedTalk,
		(*turn).leftFrozenTalk,
		(*turn).reheatedTalk,
		(*turn).leftBinnedTalk,
		(*turn).leftMixed,
		(*turn).madeTalk,
		anyway((*turn).wrapTalk),
		anyway((*turn).moneyTalk),
		anyway((*turn).priceTalk),
		anyway((*turn).onlyUsedTalk),
		anyway((*turn).shortCameTalk),
		(*turn).thawedTalk,
		anyway((*turn).freezerTalk),
		anyway((*turn).headsNow),
		(*turn).spoiltAmount,
		anyway((*turn).binTalk),
		anyway((*turn).openedTalk),
		anyway((*turn).dateTalk),
		anyway((*turn).keepTalk),
		anyway((*turn).abuseTalk),
		anyway((*turn).heatTalk),
		(*turn).ruleTalk,
		(*turn).pictureTalk,
		anyway((*turn).atScales),
		(*turn).cutTalk,
	}
}

// lateTalks are those that only a message is which nothing else has read.
func lateTalks() []talk {
	return []talk{
		(*turn).aloneTalk,
		(*turn).swappedTalk,
		(*turn).putTalk,
		(*turn).wentInAfterAll,
		(*turn).portionTalk,
		(*turn).spoiltTalk,
		(*turn).madeCounted,
		anyway((*turn).sentBackTalk),
		anyway((*turn).doubleTalk),
		anyway((*turn).keptRawTalk),
		anyway((*turn).wasWrittenTalk),
		anyway((*turn).mishandledTalk),
		anyway((*turn).orderTalk),
		(*turn).figuresTalk,
	}
}

// partsAmiss asks of a weight and its parts that do not add up.
func (t *turn) partsAmiss() (r Reply, done bool, err error) {
	food, whole, list := t.reader().PartsAmiss(t.m.Text)
	if food == "" {
		return r, false, nil
	}
	return Reply{Kind: Error, Text: fmt.Sprintf(`%s: %s, or %s? Nothing written: say what went, like "used %s %s".`, title(food), whole, both(list, "and"), whole, food)}, true, nil
}
