package message

import "strings"

func set(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

// fillers carry nothing by themselves. A run of words is set aside only when all
// of it is fillers; one word that is not known leaves the run to a person. None
// of them may turn a price into another: "not", "was", "members" and the like are
// left out on purpose.
var fillers = set(`yeah yep yup ya u ur r sure thing runs running goes confirm confirmed pleased oh well cheers mate bud buddy folks guys
	thx thnx ty tks ta greetings respectfully sincerely a an the and or of for to in on at by with as from per each it its it's i i'm i'd i'll i've we we're we'd we'll we've
	us our ours you you're you'd your yours me my this that these those there here is are am be being been do does did
	can would has have had having got get gets also too then so just now right only some about
	hi hello hey dear good morning afternoon evening day thanks thank cheers please welcome sorry pls plz hope hoping well again very much
	many kind regards best wishes all both following follows below above attached details
	message email mail e-mail note call enquiry inquiry enquiring asking asked ask request interest question questions reply replying
	getting touch back contact know let letting give gives giving shout ring look looking forward hear hearing
	price prices priced pricing quote quotes quoted quotation offer offers offering list cost costs rate rates charge charges
	sell sells selling sold supply supplies supplying stock stocks stocking carry come comes coming size sizes
	product products item items material stuff media medium goods order orders ordering buy buying need needs needed want wanted
	yes ok okay sure great happy glad pleased help love go going what how they they're them but it'll that's that'll here's there's what's
	guten tag bonjour pauschal pack quantity single individual still bulk re fyi ps otherwise today's meant oops`)

// doubts make the whole clause unread: what it states is denied, past, wished for or hangs on something.
var doubts = map[string]string{}

func init() {
	for words, why := range map[string]string{
		"no not never none nothing without neither nor cannot cant dont wont isnt arent doesnt out discontinued gone unavailable except excluding excluded excludes minus": "it says what is not so",
		"was were used last previous previously old formerly before earlier soon later next rising rises rise increase increases":                                          "it may be about another time",
		"maybe might perhaps may should could possibly probably likely hopefully expect expected expecting guess think believe reckon unsure":                              "it is not certain",
		"if unless depending depends subject provided providing within beyond outside when once while":                                                                     "it hangs on a condition",
		"usually normally typically sometimes often generally":                                                                                                             "it is a habit and no offer",
		"half off discount discounted less cheaper more extra plus another additional to-be-confirmed":                                                                     "it changes a number that it does not state",
		"rest remainder remaining balance total subtotal sum deposit refundable returnable surcharge":                                                                      "it is a sum or a part of one and no price of a pack",
		"their his her competitor competitors elsewhere":                                                                                                                   "it is about somebody else",
	} {
		for w := range strings.FieldsSeq(words) {
			doubts[w] = why
		}
	}
}

// hedges leave a clause unread where a number follows: about 68 is no price.
var hedges = set("about around approx approximately roughly circa ca nearly almost some say ~ ±")

// doubt gives why a word leaves its clause unread, "" if it does not.
func doubt(word string) string {
	if strings.HasSuffix(word, "n't") || strings.HasSuffix(word, "n’t") {
		return doubts["not"]
	}
	return doubts[word]
}

// opensCondition are the words that make the clause after them conditional too.
var opensCondition = set("if unless when once provided providing")

// describers are words in front of a medium that go with it into the item.
var describers = set(`red black white grey gray brown dark light natural washed double-washed rinsed pre-washed prewashed pre-rinsed unwashed
	crushed coarse fine large small round rounded smooth graded screened clean horticultural loose dry bulk bagged local mixed expanded
	double twice angular sharp hard lightweight chunky premium standard`)

// limiting are words behind a fee for delivery by which it is that of a part of the goods, or the least of several. Others,
// such as days and places, are told beside it.
var limiting = set("first from starting minimum min each every per ish up more or so way zone band pallet pallets bag bags sack sacks load loads way ways drop stop plus extra after then up to yard yards ton tons tonne tonnes")

// feeWords may stand around the only amount of a clause with a word for delivery, which is then its fee.
var feeWordsAround = set(`out way local locally curbside kerbside your yours address house home farm garden mon tue tues wed thu thur thurs fri sat sun
	monday tuesday wednesday thursday friday saturday sunday mondays tuesdays wednesdays thursdays fridays saturdays sundays flat rate fee fees charge we runs run
	anywhere in inside the town county area city region island mainland nationwide standard courier zip postcode vat gst + & all
	ship ships deliver delivers bring by with crane lift tail-lift tailgate truck van lorry trailer round this week next w`)

// noSubjects name nothing that is sold: a clause that opens with them is about the medium before it.
var noSubjects = set(`ready pre-bagged prebagged quarry yard truckload truckloads truck load loads pallet pallets full half whole grade graded dutch
	break breaks pricing block blocks brick bricks bale bales tub tubs collected collect delivered loaded trade retail cash multi-buy bulk discount discounts scoop if you`)

// tails are words behind a medium that go with it into the item, also where one names a medium itself, as gravel does.
var tails = set("chips chippings gravel stone stones rock rocks pebbles grit balls pellets aggregate granules nuggets chip")

// companyWords are words by which a name is a supplier's rather than a person's.
var companyWords = set(`quarry quarries supply supplies stores store yard yards stone stoneyard garden gardens nursery nurseries landscape landscapes
	aggregate aggregates materials co ltd farm farms depot merchant merchants centre center pit pits works gravel rock rocks trading
	growers hydroponics minerals sand soils soil haulage brothers sons son daughters bros gmbh inc llc company
	kg oy ab aps ky srl sarl sas spa sl lda oü handel gartenbau baustoffe kieswerk steinbruch recyclers ranch lumber stones pottery outfitters provisions mercantile exchange
	hydro hydroponic aquatics horticulture horticultural recycling products hardware feed feeds seed seeds mill mills barn builders landscaping quarried
	co-op coop cooperative cooperatives bv nv pty plc ag recycled traders outlet warehouse wholesale market shop growing aquaponics bonsai alpine alpines fill cover shed bench patch lightweight media substrates crushing crushers grow organics compost soils mulch ponds turf agro agri inputs industries enterprises imports importers granites substrates growers plants pots glassworks ironworks stoneworks und`)

// notNames are capitalised words that open a line and are no supplier's name.
var notNames = set(`per hey hiya alright morning cheers sincerely item unit qty customer spoke called offer special price prices pricing today new note this week best product products item items deal delivery stock size sizes bags bag bulk re
	subject date to from cc sent quote quotation hi hello dear thanks regards minimum min breaks total tax vat terms we i you our my your the it here on for and also all
	monday tuesday wednesday thursday friday saturday sunday option options loose delivered collected available valid ok okay`)

// titles are what a person is at a supplier; they stand in signatures.
var titles = set("inside outside customer customers service services support account accounts estimating dispatch president proprietor sales manager owner yard office desk team director assistant foreman the head of representative rep weighbridge orders and")

// largeNumbers go on with another number word, or stand behind one.
var largeNumbers = set("twenty thirty forty fifty sixty seventy eighty ninety hundred thousand dozen score")

// numberWords are numbers that people write out.
var numberWords = map[string]string{
	"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11",
	"twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30", "forty": "40", "fifty": "50", "sixty": "60", "a hundred": "100", "hundred": "100",
	"a dozen": "12", "dozen": "12", "half a": "1/2", "a half": "1/2", "half": "1/2",
}
