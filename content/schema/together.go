package schema

import "wardian/content/format"

// What one key asks of another isn't in the tables of content/format, which tell
// of keys one by one: content's own reading judges it, and these are the parts
// of that which a schema can say too. A test holds the two to each other.

// filled are keys that must have something behind them where they stand.
var filled = map[string]bool{"others": true, "specimen": true}

// bounds are narrower bounds of bare numbers, by key.
var bounds = map[string][2]float64{"leaf-factor": {0.1, 1.5}} // measure.ParseFactor

// requiredOf lists the keys that a file can't do without.
func requiredOf(f *format.File) []string {
	switch f {
	case &format.Specimen:
		return nil // a section has its parent's name and import, and its file doesn't say that it is one
	case &format.PlaceNote:
		return append(required(f.Keys), "place")
	}
	return required(f.Keys)
}

var (
	lost           = obj("outcome", obj("const", "lost"))
	causeNeedsLoss = needs("cause", obj("properties", lost, "required", []string{"outcome"}), "a cause needs outcome: lost beside it")
)

// together are further conditions by kind of file.
var together = map[string][]any{
	"check-in": {
		causeNeedsLoss,
	},
	"round": {
		obj("if", obj("not", obj("properties", lost, "required", []string{"outcome"})),
			"then", obj("properties", obj("specimens", obj("additionalProperties", causeNeedsLoss))), "$comment", "where the round itself says of no loss, a cause needs one on its plant's line"),
		obj("anyOf", []any{has("specimens"), has("others"), has("not-seen")}, "$comment", "a round names specimens, or speaks for the others at its place"),
		needs("others", has("place"), "the others are those at one place"),
		needs("not-seen", has("place"), "those not seen are of one place"),
		needs("event", has("place"), "an event befalls a place"),
		needs("since", has("event"), "since is of an event"),
	},
	"place note": {
		needs("since", has("event"), "since is of an event"),
	},
	"import": {
		needs("parcel", obj("not", has("box")), "parcel only where nobody measured the box"),
	},
	"specimen": {
		needs("renamed", has("received-as"), "a new name needs the label's words"),
	},
}

// has holds where a key stands with something behind it.
func has(key string) *object {
	return obj("required", []string{key}, "properties", obj(key, obj("not", obj("type", "null"))))
}

// needs holds where a key isn't there, or else another condition does.
func needs(key string, then *object, why string) *object {
	return obj("if", has(key), "then", then, "$comment", why)
}
