package main

import "strings"

// habit is how a kind grows.
type habit int

const (
	vine     habit = iota // a stem with leaves in pairs
	cane                  // a stem with leaves by turns
	clump                 // leaf stalks from a short rhizome
	creeper               // a fleshy stem along the ground, leaves near its tip
	rosette               // leaves from one point, fat roots
	runner                // a thin rhizome with a leaf here and there
	antplant              // a thick hollow rhizome with fronds
	tuft                  // fronds from one point
)

// kind is how a species is drawn: from what is generally known of its looks,
// simplified, and plainly a drawing.
type kind struct {
	habit                 habit
	form                  form
	leaf, dark, vein, rim rgb
	net                   float64 // veins: 0 a midrib only, 1 a close net
	gloss                 float64
	patch                 float64 // silver splashes or pale patches
	length, width         float64 // cm, a common leaf, where none was measured
	stem                  rgb
}

// kinds are found by the longest beginning of a name. The colours are ours, the
// habits from general knowledge of the genera.
var kinds = map[string]kind{
	"Hoya":                {vine, elliptic, hex(0x5f7d45), hex(0x38552f), hex(0x86a067), hex(0x4a6238), 0.1, 0.55, 0, 8, 4, hex(0x7a7f52)},
	"Hoya wayetii":        {vine, lanceolate, hex(0x5e7a42), hex(0x3d5a30), hex(0x7d9658), hex(0x6b2d2c), 0, 0.5, 0, 6, 2, hex(0x84624a)},
	"Hoya undulata":       {vine, wavy, hex(0x6a7a4a), hex(0x46552f), hex(0x8f9c66), hex(0x583a30), 0.35, 0.4, 0.3, 10, 5, hex(0x7a6a52)},
	"Hoya krohniana":      {vine, heart, hex(0x5b7a4c), hex(0x36532f), hex(0x7d9a68), hex(0x3c5a34), 0, 0.5, 0.9, 3.2, 2.2, hex(0x7d8058)},
	"Hoya cf. erythrina":  {vine, elliptic, hex(0x5d7440), hex(0x374c2b), hex(0x42562c), hex(0x51492e), 0.55, 0.6, 0, 12, 6, hex(0x7e6a4c)},
	"Hoya pallilimba":     {vine, elliptic, hex(0x587548), hex(0x38532f), hex(0x7c9864), hex(0xb4bd8b), 0.3, 0.5, 0, 8.5, 4, hex(0x7a7f52)},
	"Hoya lanceolata":     {vine, rhomb, hex(0x6b8a55), hex(0x466338), hex(0x8ba773), hex(0x51703f), 0, 0.35, 0, 3, 1.5, hex(0x87705a)},
	"Hoya cumingiana":     {vine, heart, hex(0x6d8f4e), hex(0x486a35), hex(0x9bb574), hex(0x557a3c), 0.15, 0.45, 0, 5, 3, hex(0x8a8a58)},
	"Hoya siariae":        {vine, elliptic, hex(0x5c7b48), hex(0x39572f), hex(0x8aa56c), hex(0x46333a), 0.3, 0.55, 0.15, 10, 5, hex(0x7b7852)},
	"Hoya imbricata":      {vine, round, hex(0x5d7148), hex(0x3f4f33), hex(0x7d8c60), hex(0x59423a), 0.1, 0.3, 0.5, 7, 7, hex(0x6f6a4e)},
	"Hoya pubicalyx":      {vine, elliptic, hex(0x4f6c40), hex(0x2f482a), hex(0x6f8a56), hex(0x3e4a30), 0.1, 0.6, 0.8, 14, 4.7, hex(0x6d5a48)},
	"Hoya obscura":        {vine, elliptic, hex(0x77863f), hex(0x57542c), hex(0x5a4a2c), hex(0x8a4a34), 0.75, 0.5, 0, 7, 3.3, hex(0x8a6244)},
	"Hoya bilobata":       {vine, round, hex(0x6f8a52), hex(0x4b6638), hex(0x8ea56c), hex(0x5d5a3a), 0, 0.35, 0, 1.6, 1.4, hex(0x86765a)},
	"Begonia":             {clump, begonia, hex(0x54703f), hex(0x34502d), hex(0x8aa36a), hex(0x6b4038), 0.6, 0.25, 0, 6, 5, hex(0x9a5a4c)},
	"Begonia amphioxus":   {cane, lanceolate, hex(0x6f8c52), hex(0x4e6b3a), hex(0x9bb078), hex(0xa3463e), 0.2, 0.25, 0.9, 7, 3, hex(0xa0584a)},
	"Begonia darthvad":    {clump, begonia, hex(0x2b2a2e), hex(0x17171c), hex(0x4a454a), hex(0x9aa58e), 0.35, 0.3, 0, 7, 5.5, hex(0x7a3f3c)},
	"Begonia dracopelta":  {clump, begonia, hex(0x35402f), hex(0x1e281e), hex(0x7b8f5c), hex(0x4a2f2c), 0.9, 0.45, 0.2, 8, 7, hex(0x80463e)},
	"Begonia rajah":       {clump, begonia, hex(0x6a3f32), hex(0x43281f), hex(0x8fb060), hex(0x5c3028), 0.8, 0.3, 0, 5, 5, hex(0x9a4a40)},
	"Begonia tropae":      {cane, round, hex(0x6d9150), hex(0x49703a), hex(0xa4bd80), hex(0x578042), 0.4, 0.2, 0, 3.8, 3.8, hex(0xa07058)},
	"Begonia foliosa":     {cane, elliptic, hex(0x557a40), hex(0x38592f), hex(0x7d9c60), hex(0x466a36), 0, 0.4, 0, 0.9, 0.6, hex(0x9a6048)},
	"Begonia thelmae":     {cane, elliptic, hex(0x446340), hex(0x2c4630), hex(0xb2c4a2), hex(0x3b5638), 0.5, 0.15, 0, 2.8, 1.8, hex(0xa25a50)},
	"Begonia × erythro":   {clump, begonia, hex(0x5f7c3f), hex(0x3c5a2d), hex(0xa7b774), hex(0x8a3c34), 0.35, 0.7, 0, 10, 9.5, hex(0xa4504a)},
	"Begonia sp.":         {clump, begonia, hex(0x7a9a58), hex(0x567a42), hex(0xa7bf80), hex(0x8c5048), 0.4, 0.2, 0, 1.5, 1.2, hex(0xa8685a)},
	"Begonia chloro":      {clump, begonia, hex(0x3d3a2c), hex(0x25261f), hex(0x9cc25a), hex(0x4a3028), 0.75, 0.25, 0, 7, 6, hex(0x8d4a42)},
	"Begonia blancii":     {clump, begonia, hex(0x5f7a48), hex(0x32442c), hex(0x8da56a), hex(0x5a3a34), 0.4, 0.3, 0.7, 6.5, 4.7, hex(0x905248)},
	"Begonia hernandi":    {clump, begonia, hex(0x4d6a4a), hex(0x2f4834), hex(0xa8586a), hex(0x5a3040), 0.7, 0.5, 0, 7, 4.8, hex(0x9c4a54)},
	"Begonia elnido":      {clump, begonia, hex(0x5e8350), hex(0x3d6038), hex(0x93b27c), hex(0x64463c), 0.8, 0.3, 0, 5.5, 5, hex(0x99584c)},
	"Begonia cf. sub":     {clump, round, hex(0x53733f), hex(0x35522d), hex(0x84a066), hex(0x6a3c36), 0.6, 0.35, 0, 7.5, 7.5, hex(0x97524a)},
	"Macodes":             {creeper, ovate, hex(0x33402c), hex(0x1f2b20), hex(0xc8a25a), hex(0x2a3526), 1, 0.1, 0, 6, 4.5, hex(0x8a6a50)},
	"Macodes sanderiana":  {creeper, ovate, hex(0x2e3328), hex(0x1a201b), hex(0xcf8f4c), hex(0x3a2e26), 1, 0.1, 0, 6.5, 4.7, hex(0x8f6650)},
	"Ludisia discolor":    {creeper, elliptic, hex(0x2b2a2a), hex(0x17181a), hex(0x9c4038), hex(0x3a2828), 0.35, 0.12, 0, 5.5, 3.2, hex(0x84504a)},
	"Anoectochilus":       {creeper, ovate, hex(0x3a2f2c), hex(0x231d1e), hex(0xd29a6a), hex(0x3c2e2a), 0.95, 0.1, 0, 4, 2.8, hex(0x8f5f50)},
	"Dossinia":            {creeper, ovate, hex(0x3a3a28), hex(0x24261d), hex(0xd8a85c), hex(0x33301f), 1, 0.1, 0, 7, 5, hex(0x86604a)},
	"Goodyera":            {creeper, ovate, hex(0x3f6149), hex(0x284536), hex(0xd3dfd0), hex(0x3a5843), 0.8, 0.12, 0, 3.2, 1.9, hex(0x7d7a5c)},
	"Microchilus":         {creeper, ovate, hex(0x45664a), hex(0x2c4a36), hex(0xb8c8b0), hex(0x3c5a40), 0.3, 0.15, 0.5, 3.3, 2, hex(0x85765c)},
	"Aspidogyne":          {creeper, ovate, hex(0x55775c), hex(0x365745), hex(0xd5e0d4), hex(0x4c6c52), 0.6, 0.15, 0.8, 4.7, 2.7, hex(0x85765c)},
	"Sarcoglottis":        {rosette, elliptic, hex(0x44663f), hex(0x2c4a2e), hex(0xcfd8bf), hex(0x3f5e3a), -1, 0.2, 0, 11, 4, hex(0x8b7a5a)},
	"Cyclopogon":          {rosette, elliptic, hex(0x50673f), hex(0x33482c), hex(0xb2b58c), hex(0x5a4a34), -0.6, 0.2, 0.4, 8.5, 3.4, hex(0x8b6f55)},
	"Lecanopteris":        {antplant, strap, hex(0x6c8f4e), hex(0x4a6c3a), hex(0x93ad6c), hex(0x567a42), 0.1, 0.35, 0, 14, 3, hex(0x7f9a62)},
	"Lecanopteris luz":    {antplant, lobed, hex(0x638a52), hex(0x43663c), hex(0x8bab6c), hex(0x507444), 0.1, 0.3, 0, 12, 3, hex(0x86a070)},
	"Pyrrosia":            {runner, round, hex(0x6b8a58), hex(0x4b6a42), hex(0x8aa474), hex(0x577549), 0, 0.35, 0, 2, 1.7, hex(0x8a7458)},
	"Microgramma":         {runner, elliptic, hex(0x5f8a48), hex(0x406637), hex(0x85a868), hex(0x4c743c), 0.05, 0.35, 0, 3, 1, hex(0x8a6e52)},
	"Microgramma bifrons": {runner, strap, hex(0x668e4c), hex(0x466c3a), hex(0x8cac6a), hex(0x53783f), 0.1, 0.3, 0, 9, 2, hex(0x8a6a48)},
	"Hymenophyllum":       {runner, filmy, hex(0x4f7a4c), hex(0x35603c), hex(0x2f4c34), hex(0x47704a), 0, 0.6, 0, 3.8, 1.5, hex(0x33302a)},
	"Asplenium":           {tuft, pinnate, hex(0x5d8a4c), hex(0x3f683a), hex(0x3c3a2c), hex(0x4a723e), 0, 0.25, 0, 12, 4, hex(0x4a3f30)},
	"Davallia":            {runner, pinnate, hex(0x6a9450), hex(0x48703c), hex(0x8a8a58), hex(0x557c44), 0, 0.3, 0, 6.5, 4.7, hex(0x9a7850)},
	"Doryopteris":         {tuft, pedate, hex(0x5a8050), hex(0x3c603a), hex(0x2c2a22), hex(0x4a6c42), 0, 0.3, 0, 6, 5.5, hex(0x26221e)},
}

func kindOf(name string) kind {
	best, found := kind{}, ""
	for n, k := range kinds {
		if strings.HasPrefix(name, n) && len(n) > len(found) {
			best, found = k, n
		}
	}
	if found == "" {
		return kinds["Hoya"]
	}
	return best
}
