package format

// Specimen is a file under specimens/: one plant as received, or a section that
// has words of its own.
var Specimen = File{
	Name: "specimen", Path: "specimens/ID.md",
	About: "One plant as received, followed from unpacking on. A section needs a file only where it has words of its own.",
	Keys: with([]Key{
		{Name: "name", Value: Value{Kind: Text}, Required: true, Example: "Hoya callistophylla",
			About: "The plant's name: cultivars in single quotes, hybrids with ×, cf. and aff. A section has its parent's."},
		{Name: "import", Value: Value{Kind: ID, Of: "import"}, Required: true, Example: "2026-spring-b",
			About: "The import it came with. A section has its parent's."},
		{Name: "price", Value: Value{Kind: Money}, Example: "45", About: "What it cost. A gift is 0."},
		{Name: "size", Value: Value{Kind: Choice, Words: []Word{
			{"seedling", "no adult leaf yet"}, {"small", "small for its kind"}, {"medium", "of middling size for its kind"}, {"large", "near full-grown for its kind"}}}, Example: "small",
			About: "The plant against its own kind full-grown, at unpacking."},
		{Name: "size-as-sold", Value: Value{Kind: Text}, Example: `"M/L"`, About: "The seller's words, where they differ."},
		{Name: "leaf-shape", Value: Value{Kind: Choice, Words: []Word{
			{"elliptic", "area = length × width × π/4"}, {"ovate", "area = length × width × π/4"}, {"obovate", "area = length × width × π/4"},
			{"orbicular", "area = length × width × π/4"}, {"triangular", "area = length × width × 1/2"}, {"rhombic", "area = length × width × 1/2"},
			{"cordate", "area = length × width × 0.806133; from the sinus to the tip 0.906900"}}}, Example: "elliptic",
			About: "The leaf's outline, which gives its area from length and width."},
		{Name: "leaf-factor", Value: Value{Kind: Number}, Default: "that of leaf-shape, else 0.69", Example: "0.69",
			About: "The leaf's area over its length times its width, where it was measured."},
		{Name: "leaf-length", Value: Value{Kind: Choice, Words: []Word{
			{"whole", "from end to end"}, {"sinus to tip", "from the notch at the stalk to the tip"}}}, Default: "whole", Example: "sinus to tip",
			About: "Which length is measured: the factor depends on it."},
		{Name: "received-as", Value: Value{Kind: Text}, Example: "Hoya sp.", About: "The label's words, where the name was corrected later."},
		{Name: "renamed", Value: Value{Kind: Day}, Past: true, Example: "2026-06-01",
			About: "The day of the new name. Updates of earlier days show the name of their day."},
		{Name: "climate", Value: Value{Kind: Choice, Words: []Word{{"cool", "wants it cool"}, {"warm", "wants it warm"}}}, Example: "cool",
			About: "What the plant wants, where it matters."},
		{Name: "local-price", Value: Value{Kind: Money}, Example: "60", About: "What a shop nearby would ask."},
		{Name: "traits", Value: Value{Kind: Table, Naming: "a word", Item: &Value{Kind: Text}}, Example: "{stem: long}",
			About: "The grower's own groupings, word: word."},
	}),
}
