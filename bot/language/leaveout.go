package language

import (
	"regexp"
	"slices"
	"strings"
	"time"
)

// A rewrite says in the reader's own words what cooks say in others, before it is read.
type rewrite struct {
	words []string // one of which the text has, in lower case: a quick look
	form  *regexp.Regexp
	to    string
	fits  func(m []string) bool // nil: always
}

// rewrites are tried in turn, each on what the one before has left.
var rewrites = []rewrite{
	// "should have" as it sounds.
	{[]string{"should of"}, regexp.MustCompile(`(?i)\bshould of\b`), "should have", nil},
	// What is pointed at is the food: "500g of that stew left".
	{[]string{" of that ", " of those "}, regexp.MustCompile(`(?i)^(\s*\d\S*(?: ?(?:kgs?|g|ml|l|litres?|portions?))?) of th(?:at|ose) ([a-z' -]+ (?:left|left over))\s*[.!]?$`), "$1 of the $2", nil},
	// Food that was cooked, and what it came to: "cooked 4kg rice, came out at 10kg".
	{[]string{" came", " weigh", " yield", " made ", " gave "}, regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve )?(?:cooked|boiled|steamed|simmered|roasted|baked|braised|poached|grilled|fried)(?: off| up)? (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?)) (?:of )?(?:the )?([a-z][a-z' -]*?)(?:,| and| -)? (?:it |they |that )?(?:came|weighed|yielded|made|gave)(?: out)?(?: at| to| as| in at)? (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?))(?: cooked)?\s*[.!]?$`), "made $3 cooked $2 from $1 $2", nil},
	// A dish that is being made, with what goes in: "making brownies 1kg flour, 20 eggs".
	{[]string{"making "}, regexp.MustCompile(`(?i)^\s*(?:i'?m |we'?re |im |were |now )?making (?:the |some |a |a double batch of )?([a-z][a-z' -]*?)[:,]? (\d[^?]*)$`), "used $2 in the $1", nil},
	// What is served beside a dish goes with it: "used 5kg rice with the curry".
	{[]string{" with the ", "alongside", " to go with ", " as a side "}, regexp.MustCompile(`(?i)^\s*((?:i |we )?used \d[^?,]*?) (?:with|alongside|to go with|as a side for|as a side with) (?:the )?([a-z][a-z' -]*?)\s*[.!]?$`), "$1 in the $2", endsInDish},
	// A meal that used food: "breakfast used 100 eggs 4kg bacon".
	{[]string{" used "}, regexp.MustCompile(`(?i)^\s*(?:the )?((?:staff |sunday |school )?(?:breakfast|brunch|lunch|dinner|supper|buffet)) (?:has |have |just )?used (?:up )?(\d[^?]*)$`), "used $2 in the $1", nil},
	// How food came, in brackets: "2kg cod (frozen)".
	{[]string{"(frozen)"}, regexp.MustCompile(`(?i) ?\(frozen\)`), " frozen", nil},
	// How many each of several boxes holds: "2 boxes of eggs, 60 each £24".
	{[]string{" each"}, regexp.MustCompile(`(?i)\b(\d+) (cases|boxes|trays|crates|packs) of ([a-z][a-z' -]*?),? (\d+) (?:in )?each\b`), "$1 $2 of $4 $3", nil},
	// "parmesan 1kg came in £14", "tofu 3kg came too £15".
	{[]string{" came", " come", "arrived", "turned up"}, regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' -]*?),? (\d[\w.]* ?(?:kgs?|g|l|ml|kilos?|litres?)) (?:came|has come|just came|arrived|turned up)(?: in)?(?: too| as well| also)?,? (?:for |at |@ ?)?([£$€]\d[^?]*)$`), "got $2 $1 $3", nil},
	// The food, that it came, and how much of it: "mussels came this morning 5kg", "cod arrived, 8kg ub 6th".
	{[]string{" came", " come", "arrived", "turned up", "landed"}, regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' -]*?) (?:has |have |just )*(?:came|come|arrived|turned up|landed)(?: in)?(?: (?:today|this morning|this afternoon|early|earlier|just now|now))*,? (\d[\d.]* ?(?:kgs?|g|l|ml|kilos?|grams?|litres?|lbs?|oz)(?: of it)?)((?:,? (?:ub|u/b|use by|used by|bb|bbe|best before|exp|expires|for [£$€]|at [£$€]|[£$€])[^?]*)?)\s*[.!]?$`), "got $2 $1$3", nil},
	// Cooked food that came, with the word for it behind: "got 8kg prawns cooked ub 6th".
	{[]string{" cooked", " precooked", " pre-cooked", " roasted", " boiled", " steamed", " poached", " grilled"}, regexp.MustCompile(`(?i)^(\s*(?:i |we |just )*(?:got|received|had|took in|delivered|delivery:?)(?: in)? \d[\d.]* ?(?:kgs?|g|kilos?|grams?|lbs?|oz)?) (?:of )?((?:[a-z'-]+ ){0,3}[a-z'-]+),? (?:ready |pre-?|already )?(cooked|roasted|boiled|steamed|poached|grilled)(\s*[.!]?$|[,;] ?(?:\d|ub|use|bb|best|exp|[£$€]).*$| (?:and \d|ub|u/b|use by|used by|bb|bbe|best before|exp|expires|for [£$€]|at [£$€]|[£$€]).*$)`), "$1 $3 $2$4", nil},
	// What is not in a food, or how its animal was killed, behind its name: "500g cheddar dairy free", "2kg beef mince halal".
	{[]string{" free", "-free"}, regexp.MustCompile(`(?i)(\d[\d.]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?|lbs?|oz)) (?:of )?((?:[a-z'-]+ ){0,3}?[a-z'-]+),? \(?((?:dairy|milk|lactose|gluten|wheat|egg|nut|peanut|soya|soy|sesame|mustard|celery|sulphite)[ -]free)\)?(\s*[.!]*$|\s*[,;\n]|\s+(?:and|in|into|for|from|left|left over|ub|use|bb|bbe|best|£\d|at £)\b|\s+[£$€]\d)`), "$1 $3 $2$4", nil},
	{[]string{" halal", " kosher"}, regexp.MustCompile(`(?i)([a-z:,;] *\d[\d.]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?|lbs?|oz)) (?:of )?((?:[a-z'-]+ ){0,3}?[a-z'-]+),? \(?(halal|kosher)\)?(\s*[.!]*$|\s*[,;\n]|\s+(?:and|in|into|for|from|left|left over|ub|use|bb|bbe|best|£\d|at £)\b|\s+[£$€]\d)`), "$1 $3 $2$4", nil},
	// Two words written as one.
	{[]string{"aswell"}, regexp.MustCompile(`(?i) aswell\b`), " as well", nil},
	// A delivery with a word for it that is none by itself: "in: 60 apples £11", "and the fruit - 40 apples £7".
	{[]string{"in:", "in :", "£", "$", "€"}, regexp.MustCompile(`(?i)^\s*(?:(?:stock )?in\s*:\s*(\d.*)|(?:and |also |then )?(?:the )?(?:fruit|veg|fruit and veg|meat|fish|dairy|dry|bread|frozen|salad|drinks|cheese)(?: order| delivery| drop| box)?\s*[-:]\s*(\d[^?]*[£$€]\s?\d[^?]*))$`), "got $1$2", nil},
	// Food on its way into a dish: "5kg topside in for the roast beef".
	{[]string{" in for "}, regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) (?:is |are |gone |going )?in for (?:the )?([a-z' -]+?)\s*[.!]?$`), "used $1 in the $2", nil},
	// "topside in the oven, 4kg for the roast".
	{[]string{" in the oven"}, regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) in the oven,? (\d\S*(?: ?(?:kg|g))?),? for (?:the )?([a-z' -]+?)\s*[.!]?$`), "used $2 $1 in the $3", nil},
	// "pork in the oven for carnitas, 8kg".
	{[]string{" in the oven"}, regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) in the oven for (?:the )?([a-z' -]+?),? (\d\S*(?: ?(?:kg|g))?)\s*[.!]?$`), "used $3 $1 in the $2", nil},
	// "as well" before a price: "12 avocados as well £9.60".
	{[]string{"£", "$", "€"}, regexp.MustCompile(`(?i) (?:as well|too),? (for |at )?([£$€]\d)`), " $1$2", nil},
	// A delivery by a firm of several words: "fish co brought 4kg cod".
	{[]string{"brought", "delivered", "turned up", "came with", "sent"}, regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z&'.-]+(?: [a-z&'.-]+){1,3}) (?:has |have |just |ve )?(?:brought|delivered|turned up with|came with|sent)(?: us| in)? (\d.*)$`), "got $2", isFirm},
	// The same by a trade: "bakery dropped 60 baguettes".
	{[]string{"dropped", "left us", "been with", "came with", "turned up"}, regexp.MustCompile(`(?i)^\s*(?:the |our )?(?:bakery|baker|bakers|butcher|butchers|fishmonger|fishmongers|dairy|grocer|grocers|greengrocer|supplier|milkman|wholesaler|farm|farmer|driver|veg man|veg guy|fish man|fish guy|meat man|egg man)(?: has|'s| just)? (?:dropped|left us|been with|came with|turned up with) (\d.*)$`), "got $1", nil},
	// A dish with what is in it: "made dough: 6kg bread flour, 3.6l water".
	{[]string{"made "}, regexp.MustCompile(`(?i)^\s*(?:i |we )?made (?:the |some |my |our )?([a-z][a-z' -]*?)\s*: ?(\d[^?]*?,[^?]*)$`), "used $2 in the $1", nil},
	// Shellfish that stays shut is thrown: "400g mussels wouldnt open, binned".
	{[]string{"open"}, regexp.MustCompile(`(?i)^\s*(\d[^,?]*? (?:mussels|clams|cockles|oysters)),? (?:that |which )?(?:wouldn'?t|didn'?t|did not|won'?t|never|not) open(?:ed)?,? (?:so |and )?(?:binned|chucked|in the bin|thrown(?: away| out)?)(?: them)?\s*[.!]?$`), "binned $1", nil},
	// Of what was dropped so many broke: "dropped a tray of eggs, 12 broken".
	{[]string{"dropped"}, regexp.MustCompile(`(?i)^\s*(?:i |we |someone |somebody )?(?:just )?dropped (?:a |the |one |an )?(?:whole )?(?:(?:tray|box|case|crate|bag) of )?(?:the )?([a-z][a-z' -]*?),? (?:and )?(\d+|half|all)(?: of (?:it|them|those))? (?:were |are |got |is |was )?(?:broken|broke|smashed|cracked|lost|bust|gone)\s*[.!]?$`), "binned $2 $1", nil},
	// "2 of the eggs were cracked".
	{[]string{"cracked", "broken", "smashed"}, regexp.MustCompile(`(?i)^\s*(\d+) (?:of )?(?:the |those |them |our )?((?:[a-z]+ )?(?:eggs?|yolks?)) (?:were|was|came|are|is|got|arrived) (?:all )?(?:cracked|broken|smashed)\s*[.!]?$`), "binned $1 $2", nil},
	// Food on its way out of the freezer, without a word for who took it: "2kg prawns out the freezer into the fridge overnight".
	{[]string{"freezer"}, regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) (?:is |are |taken |come )?(?:out|out of|from|out from) (?:of )?(?:the )?freezer,? (?:(?:in|into|to|in to)(?: the)? (?:fridge|walk ?in|chiller))?,? ?(?:overnight|to (?:defrost|thaw)(?: overnight)?|for (?:tomorrow|tmrw|tonight|the morning))?\s*[.!]?$`), "took $1 out of the freezer to defrost", nil},
	// What breaks by itself is lost, and not crushed into a dish: "3 eggs smashed".
	{[]string{"smashed"}, regexp.MustCompile(`(?i)^\s*(?:we |i |dropped and )?(?:(\d+ (?:[a-z]+ )?(?:eggs?|(?:bottles?|jars?) of [a-z ]+?))(?: got| were| are)? smashed|smashed (\d+ (?:[a-z]+ )?(?:eggs?|(?:bottles?|jars?) of [a-z ]+?)))(?: on the floor)?\s*[.!]?$`), "binned $1$2", nil},
	// Trim that was weighed, or named by what was done: "trimmed 900g peelings", "weighed 900g of scraps".
	{[]string{"peelings", "scraps", "trimmings", "offcuts", "peel"}, regexp.MustCompile(`(?i)^\s*(?:we |i )?(?:trimmed|weighed|weighed out|peeled)(?: off| up| out)? (\d[\w.,]* ?(?:kg|g|kilos?|grams?)) (?:of )?((?:[a-z]+ )?(?:peelings|peel|scraps|trimmings|offcuts))\s*[.!]?$`), "binned $1 $2", nil},
	// Trim and what it weighs, and nothing else: "300g carrot peelings", "onion skins 200g".
	{[]string{"peelings", "scraps", "trimmings", "offcuts", "peel", "trim", "skins", "cores", "tops", "husks"}, regexp.MustCompile(`(?i)^\s*(?:thats |that's |theres |there's |about )?(\d[\d.,]* ?(?:kg|g|kilos?|grams?)) (?:of )?((?:[a-z]+ ){1,2}(?:peelings|peel|scraps|trimmings|trim|offcuts|skins|cores|tops|husks))\s*[.!]?$`), "binned $1 $2", isTrimAlone},
	{[]string{"peelings", "scraps", "trimmings", "offcuts", "peel", "trim", "skins", "cores", "tops", "husks"}, regexp.MustCompile(`(?i)^\s*((?:[a-z]+ ){1,2}(?:peelings|peel|scraps|trimmings|trim|offcuts|skins|cores|tops|husks)):? (\d[\d.,]* ?(?:kg|g|kilos?|grams?))\s*[.!]?$`), "binned $2 $1", isTrimAlone},
	// A delivery headed by the trade that brought it, or by its coming, with its prices: "veg man: 20kg carrots @ 65p/kg".
	{[]string{"man", "guy", "butcher", "fishmonger", "baker", "grocer", "dairy", "goods", "order", "delivery", "supplier", "here", "landed"}, regexp.MustCompile(`(?i)^\s*(?:from )?(?:the |our |todays |today's )?(?:(?:veg|meat|fish|egg|fruit|bread|milk) (?:man|guy)|butchers?|fishmongers?|bakers?|bakery|greengrocers?|grocers?|dairy|dry goods|(?:veg |meat |fish |dry )?(?:order|delivery)(?: came| arrived| landed| is here| in)|suppliers?|(?:bread|veg|meat|fish|milk|fruit|dairy|dry)(?:'s| is| are) (?:here|landed))\s*[:,-]?\s(\d[^?]*(?:[£$€]\s?\d|\d ?p\b|\d\.\d\d\b)[^?]*)$`), "got $1", nil},
	// "24 duck breasts in @ 4.10 each".
	{[]string{" in @", " in at ", " in, ", " in for "}, regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) in,? ((?:@|at|for) ?[£$€]?\d[^?]*|[£$€]\d[^?]*)$`), "got $1 $2", nil},
	// "cod 8kg in, £96".
	{[]string{" in"}, regexp.MustCompile(`(?i)^\s*([a-z][a-z' -]*?) (\d[\w.]* ?(?:kg|g|l|ml|kilos?|litres?)) in,? (?:for |at |@ ?)?([£$€]\d[^?]*)$`), "got $2 $1 $3", nil},
	// How many a case holds, said behind: "2 cases of little gem, 12 to a case", "6 trays of eggs (30)".
	{[]string{" of "}, regexp.MustCompile(`(?i)\b(\d+) (cases|boxes|trays|crates|packs|case|box|tray|crate|pack) of ([a-z][a-z' -]*?)(?:,? (\d+) (?:to|in|per) (?:a |an |each |the )?(?:case|box|tray|crate|pack)\b| ?\((\d+)(?:s| each| a tray| per tray)?\))`), "$1 $2 of $4$5 $3", nil},
	// The same behind the price: "2 trays of eggs £9 (30 a tray)".
	{[]string{" of "}, regexp.MustCompile(`(?i)\b(\d+) (cases|boxes|trays|crates|packs|case|box|tray|crate|pack) of ([a-z][a-z' -]*?),? ((?:at |@ ?|for )?[£$€]\d[\d.]*(?: each| a \w+)?),? \(?(\d+) (?:(?:to|in|per) )?(?:a |an |each |the )?(?:case|box|tray|crate|pack)\)?`), "$1 $2 of $5 $3 $4", nil},
	// So many by number: "4 no. chickens 1.6kg ea".
	{[]string{" no. ", " no "}, regexp.MustCompile(`(?i)^((?:got |rec'?d |received )?\d+) no\.? ([a-z])`), "$1 $2", nil},
	// Pints as they stand on the bottle: "4 x 4pt milk".
	{[]string{"pt"}, regexp.MustCompile(`(?i)(\d) ?pts? (?:of )?((?:whole |skimmed |semi |semi-skimmed |blue |green |red |double |single |whipping )*(?:milk|cream|buttermilk|stock|juice|cider|ale|beer))\b`), "$1 pints $2", nil},
	// The grade of flour is no amount: "10kg 00 flour".
	{[]string{"00 "}, regexp.MustCompile(`(?i)(\d ?(?:kg|g|kilos?)|bags?|sacks?)( of)? (?:tipo )?00 (?:pizza |pasta )?flour\b`), "$1$2 flour", nil},
	// What was left over and thrown: "4 baguettes left, binned".
	{[]string{"bin", "chuck", "thrown"}, regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) (?:left over|left|over|unsold),? (?:so |and |all )?(?:binned|in the bin|chucked|thrown|thrown away|thrown out)(?: them| it)?\s*[.!]?$`), "binned $1", nil},
	// What a food weighs: "cheddar 3.6kg on the scales".
	{[]string{"scale"}, regexp.MustCompile(`(?i)^([a-z][^,?]* \d[\w.]* ?(?:kg|g|l|ml|kilos?|grams?)) (?:on|by) the scales?\s*[.!]?$`), "$1 left", nil},
	// A delivery headed with who brought it, with its prices: "fishco: 4kg cod £44".
	{[]string{"£", "$", "€"}, regexp.MustCompile(`(?i)^\s*(?:from )?([a-z&' .-]{2,30}?)\s*:\s*(\d[^?]*[£$€]\s?\d[^?]*)$`), "got $2", func(m []string) bool { return isStrange(m[1]) }},
	// A dish that is told by what it was cooked with: "cooked omelette with 6 eggs".
	{[]string{" with ", " from ", " out of ", " using "}, regexp.MustCompile(`(?i)^(\s*(?:i |we |ive |i've |weve |we've )?)(?:cooked|fried|baked|did|knocked up|whipped up|threw together|cooked up)(?: up)? (?:an? |the |some |my |our )?((?:[a-z'-]+ ){0,3}?[a-z'-]+?)( for \d+)? (?:with|from|out of|using) (\d.*)$`), "${1}used $4 in the $2$3", func(m []string) bool {
		return words().is(strings.ToLower(m[2][strings.LastIndexByte(m[2], ' ')+1:]), "dish")
	}},
	// A delivery that begins with who brought it: "delivery from the cash and carry: 2kg leeks". Nobody is known by that, and it is no food.
	{[]string{" from "}, regexp.MustCompile(`(?i)^(\s*(?:the |todays |today's |veg |meat |fish |fruit |dairy |dry |morning )?(?:delivery|deliveries|del|drop|goods|order|shop|shopping)(?: in| just in| here| arrived| has arrived| came)?) from [^:\n,\d]{1,40}?(:| -| –)`), "$1:", nil},
	// Food that went into a dish besides, with its amount last: "goose fat in the roasties too, 500g".
	{[]string{" too", " as well", " also"}, regexp.MustCompile(`(?i)^\s*(?:and )?(?:the )?([a-z][a-z' -]*?) (?:in|into) the ([a-z][a-z' -]*?) (?:too|as well|also),? (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?))\s*[.!]?$`), "used $3 $1 in the $2", isIntoDish},
	// One food that came in and went into a dish at once: "got 500g goose fat, all of it in the roasties".
	{[]string{", all"}, regexp.MustCompile(`(?i)^(\s*(?:just )?(?:got|received|took in)) (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?)) (?:of )?([a-z][a-z' -]*?)((?:,? (?:at |for )?[£$€]\d[\d.]*)?),? (?:and )?(?:its )?all (?:of it |of that )?(?:is |has |gone |went |going )*(?:in|into) the ([a-z][a-z' -]*?)\s*[.!]?$`), "$1 $2 $3$4, used $2 $3 in the $5", isOneIntoDish},
	// One food that came in, and where it was put: "got 500g butter, all of it in the fridge".
	{[]string{", all"}, regexp.MustCompile(`(?i)^(\s*(?:just )?(?:got|received|took in) \d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?) (?:of )?[a-z][a-z' -]*?(?:,? (?:at |for )?[£$€]\d[\d.]*)?),? (?:and )?(?:its )?all (?:of it |of that )?(?:is |has |gone |went |going )*(?:in|into) the (?:fridge|walk.?in|chiller|cold ?room|dry store|store|stores|larder|cellar|cupboard|pantry)(?: \d)?\s*[.!]?$`), "$1", nil},
	{[]string{", all"}, regexp.MustCompile(`(?i)^(\s*(?:just )?(?:got|received|took in) \d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?) (?:of )?[a-z][a-z' -]*?)((?:,? (?:at |for )?[£$€]\d[\d.]*)?),? (?:and )?(?:its )?all (?:of it |of that )?(?:is |has |gone |went |going )*(?:in|into) the freezer\s*[.!]?$`), "$1, frozen$2", nil},
	// What cost nothing: "got beef bones 3kg free".
	{[]string{" free", " for nothing"}, regexp.MustCompile(`(?i)^(\s*(?:i |we |just |and )*(?:got|received|took in|had in)\s[^?]*?\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?))(?:,? for free|,? free(?: of charge)?|,? for nothing)(\s*(?:[.!,;].*| and \d.*)?)$`), "$1$2", nil},
	// What a pot that is done came to: "stock done, got 9l of it".
	{[]string{" of it", " of that"}, regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' -]*?)(?:'s| is| are)? (?:done|ready|finished|strained|made)[,.;]? (?:and )?(?:we |i |ive |weve |that |it )?(?:got|have|had|made|came to|gave|theres)? ?(\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|l|ml|litres?)) of (?:it|that)\s*[.!]?$`), "made $2 $1", isPot},
	// What is asked of food by the portion, which is what it is counted by.
	{[]string{"how many "}, regexp.MustCompile(`(?i)\b(how many) (?:portions|servings|helpings|plates|pieces) of `), "$1 ", nil},
}

// cookedIn is food that was cooked in another, which went in as well: "60 eggs scrambled with 600ml milk".
var cookedIn = regexp.MustCompile(`(?i) (scrambled|fried|roasted|sauteed|sautéed|sweated|tossed|braised|poached|browned) (?:in|with) (\d)`)

// leaveOut gives a text without what says nothing more, rewritten, and with what was cooked in something as
// two uses.
func leaveOut(text string) string {
	_, text = MadeOn(text, time.Sunday)
	low := strings.ToLower(text)
	for _, x := range rewrites {
		if !slices.ContainsFunc(x.words, func(w string) bool { return strings.Contains(low, w) }) {
			continue
		}
		if m := x.form.FindStringSubmatch(text); m == nil || x.fits != nil && !x.fits(m) {
			continue
		}
		text = x.form.ReplaceAllString(text, x.to)
		low = strings.ToLower(text)
	}
	if strings.Contains(low, "used ") {
		return cookedIn.ReplaceAllString(text, " and $2")
	}
	return cookedIn.ReplaceAllString(text, " $1, used $2")
}

// isTrimAlone says whether the words between are a food's: the peel of citrus goes into dishes, and who needs or got some
// says so.
func isTrimAlone(m []string) bool {
	return !isSaid(m[1]+" "+m[2], "need", "needs", "want", "got", "used", "use", "no", "some", "any", "more", "less", "the", "for", "in", "lemon", "orange", "lime", "citrus", "candied", "mixed", "grapefruit", "tangerine", "potato", "chicken", "pork", "salmon", "did", "claim", "keep", "going", "prep")
}

// endsInDish says whether the last of the words between is a dish's.
func endsInDish(m []string) bool {
	words := strings.Fields(strings.ToLower(m[len(m)-1]))
	return len(words) > 0 && NamesDish(words[len(words)-1])
}

// isIntoDish says whether the second of the words between is no place where food is kept or cooked.
func isIntoDish(m []string) bool { return !isSaid(m[2], "place", "elsewhere", "kit") && !keptIn(m[2]) }

// isOneIntoDish is the same of the last, where the food is one.
func isOneIntoDish(m []string) bool {
	return !isSaid(m[3], "and") && !isSaid(m[5], "place", "elsewhere", "kit") && !keptIn(m[5])
}

// isPot says whether the first of the words between may be what was cooked.
func isPot(m []string) bool {
	return !isSaid(m[1], "notfood", "place", "pron", "prep", "list", "order", "orders", "delivery", "service", "job", "work", "shift", "not", "when", "if", "once", "almost", "nearly", "be", "to")
}

// keptIn says whether words are of where food is kept or cooked, and of no dish.
func keptIn(said string) bool {
	return isSaid(said, "fridge", "freezer", "walk", "chiller", "oven", "ovens", "pan", "pot", "bin", "store", "larder", "cellar", "cupboard", "shed", "van", "tray", "box", "tub", "bucket", "fryer", "sink", "pass", "trolley", "rack", "shelf")
}

// isFirm says whether the words before "brought" may be those of a firm: nobody who is spoken of, or asks.
func isFirm(m []string) bool {
	return !isSaid(m[1], "the", "our", "not", "could", "if", "ask", "i", "pron", "they", "he", "she", "we", "that", "says", "said", "swears", "guest", "table")
}

// isSaid says whether a phrase has one of some words, as a word or as a class of words.csv.
func isSaid(phrase string, list ...string) bool {
	for _, w := range strings.Fields(strings.ToLower(phrase)) {
		if slices.Contains(list, w) || slices.ContainsFunc(list, func(c string) bool { return words().is(w, class(c)) }) {
			return true
		}
	}
	return false
}

// isStrange says whether no word of a phrase is one of the reader's own, so that it may name a firm.
func isStrange(phrase string) bool {
	for _, w := range strings.Fields(strings.ToLower(phrase)) {
		if l := words(); len(l.first[w]) > 0 || questions().known[w] {
			return false
		}
	}
	return true
}
