package chart

// Classes are all classes that drawings carry, and what wears each. The style
// of every one stands in themes/chart.css, which may name roles of colour only.
// A page puts a drawing and its key into an element of class "fig": that is the
// container whose width decides.
//
// The page itself writes these frames round what it gets:
//
//	<figure class="fig">caption, Drawing.HTML, Drawing.Key, notes, tables</figure>
//	<ol class="rows"><li class="axis" aria-hidden="true"><span class="bar">Top</span></li>
//	  <li><span class="id">…</span><span class="nm">…</span><span class="bar">Bars[i]</span><span class="out">…</span></li>
//	  <li class="sec">…</li> … <li class="axis" aria-hidden="true"><span class="bar">Bottom</span></li></ol>
//	<ul class="many"> or <ul class="strip"> with <li><a><span class="thumb">Cells[i]</span>…</a></li>
var Classes = map[string]string{
	// frames
	"ch":      "every svg",
	"plot":    "div round a picture: the padding that axis words stand in",
	"names":   "plot with room on the right for names of curves",
	"nothing": "sentence in place of a picture",
	"key":     "list under a picture",
	"days":    "key with a line a mark and a place, below 640 px one under another",
	"water":   "key to the water level",
	"stood":   "list of who stood at a place",
	"id":      "number, in stood",
	"nm":      "name, in stood",
	"ic":      "icon of 22 px",
	"pips":    "row of crosses",
	"emblem":  "leaf lying on the soil line",
	"whisk":   "interval in a table's cell",
	"bar48":   "bar of a row",
	"bar34":   "bar of a section's row",

	// widths of the container
	"narrow":   "below 640 px",
	"wide":     "from 640 px",
	"broad":    "from 1024 px",
	"unbroad":  "below 1024 px, in keys",
	"thin-out": "from 480 px",
	"lanes1":   "picture with one lane of labels, pulled up below 640 px",
	"lanes2":   "with two lanes",
	"nu1":      "mark lifted one row below 640 px", "nu2": "two rows",
	"nd1": "mark lowered one row below 640 px", "nd2": "two rows",
	"wu1": "mark lifted one row from 640 px", "wu2": "two rows",
	"wd1": "mark lowered one row from 640 px", "wd2": "two rows",

	// words
	"b":    "bold",
	"q":    "quiet ink",
	"hal":  "halo of ground under words or a solid mark",
	"leaf": "words or scale in the role leaf",
	"root": "words or scale in the role root",

	// lines
	"g":     "hairline",
	"guide": "stronger hairline, on days with words at every width",
	"ax":    "axis",
	"lead":  "dotted leader from a label to its mark",
	"soil":  "soil line",
	"rest":  "the days after watching",
	"join":  "piece of line that leads to the next thumb of a strip",
	"scale": "scale mark",
	"ln":    "interval, edge of a box of losses",
	"mean":  "day means at a place",

	// leaf and root
	"fill": "leaf area", "edge": "its edge", "vein": "upright at a look",
	"dot": "look: a dot by its round cap", "est": "estimated: ring, with", "in": "its inside",
	"r": "strand", "m": "measured strand", "tip": "tip of a measured strand, or a root grade's dot",

	// water, wettest first; s0: stage not known
	"s4": "soak", "s3": "bin", "s2": "step-down", "s1": "room", "s0": "no stage",

	// curves
	"km": "curve", "few": "where too few are under watch: dashed", "thin": "thin line: soil line of rows, curve where too few are under watch",
	"old": "curve of an earlier season", "dash": "dash of a second curve", "dots": "third", "long": "fourth", "dashdot": "fifth", "wide-dots": "sixth",
	"gone": "share lost, hanging from above", "gone-edge": "its edge", "lim": "95% limits of the share below",
	"band": "95% limits, lowest to highest of a day, or share that reached a milestone", "tick": "one left watch alive", "fine": "finer: many ticks, the arrow of a dropped leaf",

	// marks
	"mk": "solid", "l": "stroked", "o": "filled with ground and stroked", "x": "cross of a loss", "halo": "ground under a stroked mark",
	"spot": "share within its interval: a dot by its round cap",

	// emblem
	"blade": "upper half", "veins": "its veins", "rootlets": "the lower half",
}
