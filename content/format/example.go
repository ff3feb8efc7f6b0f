package format

// Sample is a kind of file shown whole: what one looks like when it is in use.
type Sample struct{ Path, Text string }

// Example gives a file of the kind, laid out for the small diary that the
// examples of codes are laid over. It shows what goes well together, not every
// key: some exclude each other, and each key has an example of its own. A kind
// without one is a fault of the program's own and panics.
func (f *File) Example() Sample {
	if w, ok := samples[f.Name]; ok {
		return w
	}
	panic("format: no whole example of a " + f.Name)
}

// samples are the examples by kind of file. Everything in them is invented.
var samples = map[string]Sample{
	"diary": {"diary.yaml", `# Lines that start with # are for you alone.
name: North Sill
grower: M.
about: small imports on a north-facing sill
address: https://example.org/sill/
time-zone: Europe/Oslo
currency: NOK
units: {length: cm, temperature: C}
contact: https://example.org/letters/
licence: CC-BY-4.0
publish: {costs: no, times: no, hold-back: 0 days}
thresholds: {landmark: 3 days, horizon: 42 days, no-root-by: 21 days}
rules: {chilling: no}
`},
	"import": {"imports/2026-spring-b.md", `---
season: 2026 spring
origin: Taiwan
exporter: exporter B
ordered: 2026-02-11
dispatched: 2026-03-02
arrived: 2026-03-09
unpacked: 2026-03-09 19:40
received: 3
short: {Begonia amphioxus: 1}
phytosanitary: yes
permits: [CITES II]
packing: [heat pack, damp moss round the roots]
box: 11 C
claim-until: 2026-03-11 19:40
quarantine-until: 2026-04-06
costs:
  freight: 120 USD
  phytosanitary: 45 USD
  customs: 38
  discount: -10.30 USD
  shared-by: count
rates: {USD: 10.52}
refunds: [{date: 2026-03-20, amount: 14 USD, for: short}]
private: {exporter: "the real name", phytosanitary-number: "the real number"}
---
Two days late, and cold to the touch. The moss was still damp.
`},
	"specimen": {"specimens/b26-03.md", `---
name: Macodes petola
import: 2026-spring-b
price: 45
size: small
size-as-sold: "M/L"
leaf-shape: ovate
received-as: Macodes sp.
renamed: 2026-06-01
climate: warm
local-price: 60
traits: {stem: long}
---
The largest leaf has a thumbprint on it.
`},
	"check-in": {"check-ins/2026-04-06-b26-03.md", `---
date: 2026-04-06 18:30
specimen: b26-03
place: tote
reading: 25.5 C 98%
medium: sphagnum moss
roots: {grade: 2, longest: 4 cm, count: 5, new: yes}
leaves: {count: 2, sizes: [12x8 cm, 10x7 cm]}
turgor: firm
rot: none
did: [soaked, potted]
note: a new root on the side that was in the light
---
It took four weeks to get here.
`},
	"round": {"check-ins/2026-04-06.md", `---
date: 2026-04-06
place: tote
reading: 25.5 C 98%
specimens:
  b26-01: new root, leaves 3 13x6 12x6
  b26-02: limp, rot stem; smells sour, and of mushrooms
  b26-03: {turgor: firm, pests: thrips, quarantine-until: 2026-05-20}
others: same                       # same, or not seen
---
Condensation on the lid. These words are for all of them.

## b26-02
Cut back to green. These words are for this one.
`},
	"place note": {"check-ins/2026-03-29-power-cut.md", `---
date: 2026-03-29 21:00
place: tote
event: power cut
since: 2026-03-29 17:00
reading: 17 C 99%
---
The cable was cold for four hours. The lid stayed shut.
`},
	"place": {"places/shelf.md", `---
name: Shelf over the heating cable
stage: bin
humidity: 98%
temperature: 25 C
bottom-heat: yes
quarantine: yes
check-every: 2 days
readings:
  file: "readings/shelf*.csv"
  time: Time
  temperature: "Temp (C)"
  humidity: "RH %"
---
The lid has two holes with tape over them.
`},
	"update": {"updates/six-weeks-on.md", `---
title: Six weeks on
date: 2026-04-20
import: 2026-spring-b
---
Two of three have roots. [The third](specimens/b26-02) was slow.

` + "```plate\nshow: survival\n```" + `

The lid comes off on Sunday.
`},
	"season": {"seasons/2026-spring.md", `---
season: 2026 spring
---
The spring in which I learnt to leave the lid on.
`},
	"plate": {"updates/seven-weeks-on.md", `---
title: Seven weeks on
date: 2026-04-27
---
How they did by size:

` + "```plate\nshow: survival\nimport: 2026-spring-b\nby: size\n```" + `

And the first and the latest picture of one:

` + "```plate\nshow: then-and-now\nspecimen: b26-01\n```\n"},
	"order": {"order.yaml", `exporter: exporter B
lines:
  - {name: Hoya callistophylla, size: small, count: 2, price: 45 USD}
  - {name: Macodes petola, count: 3, price: 18.50 USD}
  - {name: Begonia amphioxus, price: 0}
costs: {freight: 120 USD, phytosanitary: 45 USD, customs: 38}
rates: {USD: 10.52}
`},
}
