package bot

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
)

var (
	// betweenDishes parts what is asked of at once: "the pilaf and the cake", "rice pud or coffee cake".
	betweenDishes = regexp.MustCompile(`(?i)\s*(?:[,&/+;]|\band\b|\bor\b|\bplus\b)\s*(?:(?:and|or|also) )?(?:the |a |an |some |any )?`)
	// areThe begins a question of several dishes.
	areThe = regexp.MustCompile(`(?i)^\s*are (the |our )?(.+)$`)
)

// mostAtOnce is how many dishes and places one question may be of.
const mostAtOnce = 12

// askedOfSeveral reads a question of several dishes that is read of one of them: "are the flan and cake nut free"; nil
// where it is none.
func (t *turn) askedOfSeveral() *language.Question {
	text := t.m.Text
	if len(text) > longest/10 || !asksThis.MatchString(text) || !betweenDishes.MatchString(text) {
		return nil
	}
	tried := []string{areThe.ReplaceAllString(text, "is $1$2")}
	if with := betweenDishes.ReplaceAllString(text, " and "); with != text {
		tried = append(tried, with, areThe.ReplaceAllString(with, "is $1$2"))
	}
	for _, as := range tried {
		if q, _ := t.reader().HoldTalk(as); as != text && q != nil && slices.Contains(ofEach, q.About) && betweenDishes.MatchString(q.Food) {
			return q
		}
	}
	if m := isTheseSo.FindStringSubmatch(text); m != nil { // read of the last, and asked of all
		if q, _ := t.reader().HoldTalk(m[1] + " the " + m[3]); q != nil && slices.Contains(ofEach, q.About) {
			q.Food = m[2] + " and " + q.Food
			return q
		}
	}
	return nil
}

// isTheseSo is a question of several dishes, parted before the last of them: "is the flan or the cake nut free".
var isTheseSo = regexp.MustCompile(`(?i)^\s*(is|does|do|has) (?:the |our )?([a-z][a-z' ,&/-]*?)(?:\s*[,&/]\s*|\s+(?:and|or)\s+)(?:the |our )?([a-z' -]+? (?:free|have|contain|got)\b[a-z' -]*\??)\s*$`)

// oneSo is what food may be, and soAndSo asks of several such things at once: "is the flan vegan and nut free".
const oneSo = `(?:vegan|vegetarian|veggie|halal|kosher|pescatarian|[a-z]+[ -]free)`

var soAndSo = regexp.MustCompile(`(?i)^\s*(?:is|are) (?:the |our |that |this )?([a-z][a-z' ,&/-]*?),? (` + oneSo + `(?:(?:\s*[,&]\s*(?:and |or )?|\s+(?:and|or)\s+)` + oneSo + `)+)\s*\??\s*$`)

// askedSoAndSo reads a question of several things as one of each; none where it is of one, or one of them is not read.
func (t *turn) askedSoAndSo() (list []*language.Question) {
	m := soAndSo.FindStringSubmatch(t.m.Text)
	if m == nil {
		return nil
	}
	for _, so := range betweenDishes.Split(m[2], -1) {
		text := t.m.Text
		t.m.Text = "is the " + m[1] + " " + strings.TrimSpace(so) + "?"
		q, _ := t.reader().HoldTalk(t.m.Text)
		if q == nil || betweenDishes.MatchString(m[1]) {
			if more := t.askedOfSeveral(); more != nil {
				q = more
			}
		}
		t.m.Text = text
		if q == nil {
			return nil
		}
		list = append(list, t.eachAsked(q)...)
	}
	return list
}

// ofEach are the questions that are asked of each of several dishes.
var ofEach = []language.About{language.AboutAllergens, language.AboutHas, language.AboutEats, language.AboutWhoEats}

// eachAsked gives a question of several dishes or places once for each dish and place; itself alone where it is of one.
// What has a dish of its whole name is one: "fish and chips".
func (t *turn) eachAsked(q *language.Question) (list []*language.Question) {
	whole := strings.ToLower(q.Food)
	dishes := []string{q.Food}
	if slices.Contains(ofEach, q.About) && !slices.Contains(t.k.Dishes, t.dish(whole)) && t.k.Named(whole) == nil && betweenDishes.MatchString(whole) {
		dishes = nil
		for _, dish := range betweenDishes.Split(whole, -1) {
			if dish = strings.TrimSpace(dish); dish != "" && !language.IsThing(dish) {
				dishes = appendOnce(dishes, dish)
			}
		}
		if len(dishes) == 0 {
			dishes = []string{q.Food}
		}
	}
	for place := range strings.SplitSeq(q.Place, ";") {
		for _, dish := range dishes {
			one := *q
			one.Place, one.Food = place, dish
			list = append(list, &one)
		}
	}
	if len(list) > mostAtOnce {
		return list[:0]
	}
	return list
}

// toldOfSeveral says whether somebody tells what is in several dishes at once, which are no one dish.
func (t *turn) toldOfSeveral(q *language.Question) bool {
	if q.About != language.AboutSaidIn {
		return false
	}
	one := *q
	one.About = language.AboutHas
	each := t.eachAsked(&one)
	return len(each) > 1 && slices.ContainsFunc(each, func(q *language.Question) bool {
		return slices.Contains(t.k.Dishes, t.dish(q.Food)) || t.reader().NamesDish(q.Food)
	})
}

// holdEach answers each of several questions, what says no first. None is left out: a dish that nobody knows is unknown.
func (t *turn) holdEach(each []*language.Question, why string) (r Reply, done bool, err error) {
	var says []string
	for _, q := range each {
		one, done, err := t.holdOne(q, why, true)
		if err != nil {
			return r, true, err
		}
		text := one.Text
		switch {
		case done && text != "":
		case q.Food == "":
			text = t.sayAsked([]language.TableTalk{{About: language.AboutWho, Place: t.placeCalled(q.Place)}})
		default:
			text = newHolding(q.Food).sayAll()
		}
		if q.Food != "" && !strings.Contains(strings.ToLower(text), strings.ToLower(q.Food)) { // it was found by another name
			text = title(q.Food) + ": " + text
		}
		says = appendOnce(says, text)
	}
	slices.SortStableFunc(says, func(a, b string) int { return cmp.Compare(howBad(a), howBad(b)) })
	return Reply{Kind: Answer, Text: strings.Join(says, "\n")}, true, nil
}

var (
	saysNo   = regexp.MustCompile(`(?m)^(?:[^.:\n]*: )?No\. |\bholds\b|\bcontains\b`)
	saysWait = regexp.MustCompile(`\bNot before\b|\b[Mm]ay\b|\bNot v`)
	saysIdk  = regexp.MustCompile(`\b[Uu]nknown\b`)
)

// howBad orders answers: no, not yet, unknown, and what nothing is known against.
func howBad(text string) int {
	switch {
	case saysNo.MatchString(text):
		return 0
	case saysWait.MatchString(text):
		return 1
	case saysIdk.MatchString(text):
		return 2
	}
	return 3
}
