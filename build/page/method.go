package page

import (
	"slices"

	"wardian/build/address"
	"wardian/build/said"
)

// definition is one figure of the method page: what it means, in two sentences
// or so, and from where.
type definition struct {
	Anchor, Term, Says, Source string
}

// methodData fills method.html.
type methodData struct {
	Parts    []methodPart
	Coverage []coverageData
	Cautions []caution
}

type methodPart struct {
	Title string
	List  []definition
}

// caution is one caution, with what it rests on.
type caution struct {
	Title, Says string
}

func (s *site) methodPage() Page {
	return Page{Path: address.Method(), Make: func() ([]byte, error) {
		return s.set(address.Method(), "method", method, "Method", "What each figure means, from where it is taken, and what so few plants can bear.", func(v view) any {
			return methodData{Parts: append(slices.Clone(methodParts), forecastPart), Coverage: []coverageData{survivalCoverage(), forecastCoverage()}, Cautions: cautions}
		})
	}}
}

// methodParts are the definitions, in the order in which a reader meets them.
var methodParts = []methodPart{
	{"Watching", []definition{
		{"line", "Line", "A specimen as received together with everything that was cut from it. Shares count lines, so that cutting one plant into four saves at most one.", "common practice, no source"},
		{"day", "Day", "Whole calendar days from the import’s arrival, which is day 0. A day that is half known counts from its first possible day.", "common practice, no source"},
		{"look", "Look", "A check-in that saw the plant, alive or lost. A plant that a round does not speak for was not looked at.", "common practice, no source"},
		{"as-of", "As-of day", "The day of the latest look anywhere in the diary, or of the latest day in a list; the figures take it for today. So the same diary gives the same figures on every day.", "common practice, no source"},
		{"open", "Under watch", "A line counts as under watch to the as-of day while some part of it was seen alive within seven days of it, or within twice the days between looks at its place. Otherwise it leaves on the day it was last seen alive, as passed on or not seen since.", "common practice, no source"},
	}},
	{"Loss and survival", []definition{
		{"from-a-list", "From a list", "A season that was kept as a table has no timelines. A plant of it that was lost is taken to have been lost between the day on which it was last seen alive and the day of its loss. Where a day is half known, it was seen alive on the first it can have been and found lost on the last. A plant without a day, or lost on a day that nobody wrote down, stands in its season’s shares and in no curve, table or test.", "common practice, no source"},
		{"lost", "Lost", "A line is lost when every part of it was found lost, and it counts as lost from the day on which the last was found. The true day lies between the last look that surely saw it alive and that day.", "interval-censored follow-up: Turnbull 1976, J. R. Stat. Soc. B 38:290–295"},
		{"on-arrival", "Dead on arrival", "Found lost on or before the day of unpacking. It counts as a loss of that day, and stands in a row of its own among the causes.", "common practice, no source"},
		{"share", "Share alive", "The product-limit estimate: after each day with a loss the share falls by the part of those under watch who were lost. Lines that left alive count up to the day they left.", "Kaplan and Meier 1958, J. Am. Stat. Assoc. 53:457–481"},
		{"curve-limits", "Limits of a curve", "Log-log 95% limits from Greenwood’s variance. They do not exist while nobody is lost and once everybody is; the page then shows Wilson’s limits for those under watch.", "Kalbfleisch and Prentice 1980, The Statistical Analysis of Failure Time Data; Greenwood 1926"},
		{"count-limits", "Limits of a count", "“9 of 14” with Wilson’s 95% limits: the shares for which a count like this one would not be surprising. They are given where the state of every line is known.", "Wilson 1927, J. Am. Stat. Assoc. 22:209–212; Brown, Cai and DasGupta 2001, Stat. Sci. 16:101–133"},
		{"between", "Between a and b", "Where the state of some lines is unknown: the count if all of these were lost, and if all were alive. The truth lies between, whatever became of them.", "common practice, no source"},
		{"dashed", "Dashed", "The curve is dashed where fewer than five lines, or a tenth of all, are under watch. There one more loss moves it a long way.", "Pocock, Clayton and Altman 2002, Lancet 359:1686–1689; Gebski et al. 2018, Int. J. Epidemiol. 47:850–859"},
		{"half", "Half were lost by", "The first day on which the share alive is below a half; where it stands at exactly a half for a while, the middle of that while. Where it never came so low, the page says how long more than half were seen alive.", "Kaplan and Meier 1958, J. Am. Stat. Assoc. 53:457–481; the middle is common practice, no source"},
		// volume and pages of this citation are from memory
		{"one-more", "One more loss", "What the share would fall by if one more of those under watch were lost: the share over their number. Late in a curve it is large.", "Gebski et al. 2018, Int. J. Epidemiol. 47:850–859"},
		{"mean-days", "Mean days alive", "The area under the curve up to a day: of so many days, how many a line was alive on average. The day is cut to the last one with a line under watch.", "Klein and Moeschberger 2003, Survival Analysis, section 4.5"},
		{"boxes", "Boxes", "Where a fifth of the losses or more were found over a week after the last look that saw the plant alive, the share alive is also drawn as boxes: it falls somewhere in each, by its height, and the likeliest heights are taken. They have no limits and stand in no test.", "Turnbull 1976, J. R. Stat. Soc. B 38:290–295; the fifth and the week are common practice, no source"},
		{"watched", "Watched for a median of", "Of each line, the days from arrival to its loss, or to the day on which it left or watching stood; half of the lines come to the median or beyond it. With the counts of what became of everybody it says how long, and of whom, the figures know.", "STROBE items 13 and 14: von Elm et al. 2007, PLoS Med. 4:e296"},
		{"when", "When losses come", "Losses found in a run of days, of the lines under watch at its start.", "common practice, no source"},
		{"alive-later", "Alive on day 14, and on day 84", "Of the lines seen alive on the first day, those alive on the second. Whoever came through the first two weeks is a group of its own: their share says what the days after held for them, not what a plant that arrives can expect.", "common practice, no source"},
		{"missed", "Not seen since, never looked at", "Lines that the figures miss after a day: nobody looked at them for longer than the rule of being under watch allows, or at all. They leave on the day they were last seen alive, and the page names them.", "STROBE items 13 and 14: von Elm et al. 2007, PLoS Med. 4:e296"},
		{"cause", "Cause", "What the grower wrote when the loss was found; a question mark counts with its cause and is told. Two causes together are a row of their own.", "common practice, no source"},
	}},
	// the pages of these citations are from memory
	{"Milestones and comparisons", []definition{
		{"milestone", "By day 14, 28, 42", "Lines seen to have reached a milestone by the day, of all that can be asked; a line lost first stays among them and is told apart. Where some left before the day, the share is the Aalen-Johansen one, with loss competing.", "Putter, Fiocco and Geskus 2007, Stat. Med. 26:2389–2430"},
		{"stacked", "Milestones, drawn", "A strip is 100% on every day: those that reached it from below, those lost without it from above, those that wait between. Limits of the lower share are symmetric in the log of minus the log of what is left of it.", "Aalen and Johansen 1978, Scand. J. Stat. 5:141–150; Marubini and Valsecchi 1995, Analysing Survival Data from Clinical Trials and Observational Studies, section 10.2"},
		{"latest-root", "The latest first root", "The last day on which a first new root was seen, among the lines that have one. Lines that were lost or wait still are not among them, so it is no time within which a root must come.", "common practice, no source"},
		{"pieces", "Pieces saved", "Sections alive when last seen or passed on, of those cut, by the part of the plant they came from. The pieces of one plant share its luck, so they are counted and nothing is reckoned from them.", "common practice, no source"},
		{"horizon", "The last day compared", "All groups are followed to one day and no further. A group is compared there once all its lines arrived that long ago, since a younger import shows its dead before its living.", "Heinze, Gnant and Schemper 2003, Biometrics 59:1151–1157"},
		{"same-age", "At the same age", "While a season runs, all are cut once more on the day that it has come to. Nothing that befell the older ones later is in that view.", "Heinze, Gnant and Schemper 2003, Biometrics 59:1151–1157"},
		{"landmark", "As of day 3", "What was done to a plant is compared only among those that lived to a day, by what was written down up to it. Two other such days stand beside it.", "Anderson, Cain and Gelber 1983, J. Clin. Oncol. 1:710–719"},
		{"difference", "Limits of a difference", "Newcombe’s 95% limits where both shares are counts of all their lines. Else those of a normal distribution with both standard errors; three groups or more are each set against the largest.", "Newcombe 1998, Stat. Med. 17:873–890, method 10"},
		{"reshuffles", "Reshuffles of the labels, p", "The labels of the groups are dealt anew, within each import or whole imports at a time, and p is the share of deals with losses at least this unevenly spread, the one seen among them. Where no deal could give 0.05 or less, none is told.", "permutation log-rank: Heinze, Gnant and Schemper 2003, Biometrics 59:1151–1157"},
		{"holm", "With all words counted", "Who looks at many words finds some that spread unevenly by luck. Holm’s p allows for all words that have one on the same day.", "Holm 1979, Scand. J. Stat. 6:65–70"},
		{"small-group", "Under five lines", "Such a group stands with its counts alone, as do lines of which the diary doesn’t say. The others are compared without it.", "common practice, no source"},
	}},
	{"Leaf and root", []definition{
		{"leaf-area", "Leaf area", "One side of all leaves: length times width times a factor for the leaf’s shape, summed. The factor is the grower’s own, or the shape’s (an ellipse π/4, a triangle 1/2, a heart 0.806), or 0.69 for any leaf.", "Montgomery 1911; Shi et al. 2019, Trees 33:1073–1085 (abstract read): factors between 1/2 and π/4 in over 11,800 leaves"},
		{"estimated", "Estimated", "An area worked out from an earlier look or from a part of the leaves, or from figures written with a tilde. It is drawn as an open dot.", "common practice, no source"},
		{"root-length", "Root length", "All roots together where they were measured; else their number times their mean length; else the longest one. Which it is stands beside it, and different ones are never joined.", "root number times mean length: common practice, no source"},
		{"root-to-leaf", "Root to leaf", "Centimetres of root for each square centimetre of leaf. It is a field proxy for supply against demand; no threshold is known.", "common practice, no source"},
		{"recovered", "More leaf than it came with", "The first look after the record of arrival with more leaf area than recorded there, or more leaves where no area is known. Plants without either on arrival are left out and counted.", "common practice, no source"},
		{"root-grade", "Root grade", "0 none, 1 stubs, 2 few short, 3 several, 4 many, 5 fills the pot. A grade is a judgement and is never turned into a length.", "common practice, no source"},
	}},
	{"Air and water", []definition{
		{"deficit", "Deficit", "The vapour pressure deficit: how much more water the air could hold, in kilopascals, from one reading of temperature and humidity. Below 0.1 kPa a sensor that is 3% off can’t tell it from none, so the page says “< 0.1 kPa”.", "FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), equation 11"},
		{"day-mean", "Day mean", "The mean of the deficits of a day’s readings, not the deficit of mean temperature and mean humidity, which says too little. Days without readings are left open.", "FAO Irrigation and Drainage Paper 56, chapter 3"},
		{"step", "Step in demand", "The deficit of the new place over that of the old one, times leaf area after over before, where both are known. It takes the leaf’s pores as unchanged, so for a leaf that closes them it says too much.", "mass flow at constant conductance; the floor of 0.1 kPa is from a sensor error of 3% at 25 °C"},
		{"step-days", "The days it is taken over", "The three whole days before the move at the old place and after it at the new one, if half their hours are covered by readings; else the places’ typical figures, and the page says so. The day of the move belongs to neither.", "common practice, no source"},
	}},
	{"Cost", []definition{
		{"landed", "Landed cost", "A plant’s price and its share of the import’s shared costs, by count or by price, to the last cent. Other money is converted at the rate the import states.", "common practice, no source"},
		{"survivor", "Cost per survivor", "All that was paid for an import, the dead plants too, less refunds, over the lines alive on a day. Lines whose state is unknown give a range.", "common practice, no source"},
	}},
}

// forecastPart stands behind the others.
var forecastPart = methodPart{"Forecast of an order", []definition{
	{"forecast", "Expected alive", "A planned order is taken for one more import like those before it: each import has a share alive of its own, and these shares scatter round a mean. How many live is averaged over every mean and every scatter that the earlier imports leave likely.", "beta-binomial: Skellam 1948, J. R. Stat. Soc. B 10:257–261; Tarone 1982, Biometrics 38:215–220; what is believed before any import: this project’s own choice, no source"},
	{"forecast-range", "80% range", "At least eight in ten such orders end within it, if the next import is like those before. It is wide with one or two earlier imports, and most of that width is how little they tell of how imports differ.", "Gelman et al. 2013, Bayesian Data Analysis, chapter 5"},
	{"forecast-which", "Which imports it learns from", "Imports all of whose plants arrived at least as many days ago as the forecast looks ahead, and that were followed from their arrival. One bought nearby is not among them.", "common practice, no source"},
	{"forecast-order", "How many to order", "The smallest number of plants of which, in at least eight in ten such orders, as many live as are wanted. Landed cost per survivor is the order’s landed cost over the expected number, from end to end of its range.", "common practice, no source"},
}}

// cautions are the usual ones. Each defers to the label, the local rule and the
// licensed hand.
var cautions = []caution{
	{"Sap", "Sap of many tropical plants irritates skin and eyes; some kinds hold needles of calcium oxalate. Gloves, and glasses when cutting; keep cut plants from children and animals; on contact rinse, and ask a poison line or a doctor."},
	{"Moss", "Sphagnum can carry the fungus of sporotrichosis into scratches, and dry potting mixes carry dust not to be breathed. Gloves, covered cuts, and damp it before use."},
	{"Pesticides and hormones", "The label is the law: only what it names, at its rates and intervals, with the gear it asks for. Plants may come already treated. This site records what was done and advises no dose."},
	{"Heat and light", "A heat mat or cable is electricity beside water: a thermostat with its probe in the medium, a residual-current breaker that is tested, drip loops, plugs off the wet floor. Fixed wiring is a licensed electrician’s work."},
	{"Borders", "Plants cross borders under law: phytosanitary certificates, CITES permits, import licences and lists of banned kinds, which change. Ask the national plant protection organization and the CITES authority; nothing here is legal advice."},
	{"Pests and diseases", "Keep newcomers apart, clean blades between plants, and bag moss, packing, rinse debris and dead plants as the plant health service says. If a pest turns up that is like none of the region’s, move nothing and report it."},
	{"Wild plants", "Never plant out or throw out living imports; some kinds are regulated weeds. Localities of wild-collected plants are not for publishing."},
}

// dataData fills data.html.
type dataData struct {
	Files   []dataFileRow
	Licence string
	AsOf    string
}

type dataFileRow struct {
	Href, Name, Says, Size string
}

func (s *site) dataPage() Page {
	return Page{Path: address.Data(), Make: func() ([]byte, error) {
		files, err := s.Data()
		if err != nil {
			return nil, err
		}
		return s.set(address.Data(), "data", data, "Data", "The diary’s public figures for other programs.", func(v view) any {
			d := dataData{Licence: s.Diary.Settings.Licence}
			if s.Cohort.AsOf.Known() {
				d.AsOf = s.Cohort.AsOf.InWords()
			}
			for _, f := range files {
				row := dataFileRow{Href: v.Href(f.Path), Name: f.Name, Says: f.Says, Size: bytesWords(f.Bytes)}
				if f.Rows > 0 {
					row.Size = said.Noun(f.Rows, "row", "rows") + ", " + row.Size
				}
				d.Files = append(d.Files, row)
			}
			return d
		})
	}}
}

func bytesWords(n int) string {
	if n < 1000 {
		return said.Noun(n, "byte", "bytes")
	}
	return itoa((n+500)/1000) + " kB"
}
