package schema

import (
	"math"
	"regexp"
	"strconv"

	"wardian/content/header"
)

// YAML 1.2's core schema: what a scalar without quotes is taken for.
var (
	isBool  = regexp.MustCompile(`^(?:true|True|TRUE|false|False|FALSE)$`)
	isWhole = regexp.MustCompile(`^[-+]?[0-9]+$`)
	isOther = regexp.MustCompile(`^0(?:o[0-7]+|x[0-9a-fA-F]+)$`)
	isFloat = regexp.MustCompile(`^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$`)
	isNull  = regexp.MustCompile(`^(?:null|Null|NULL|~|)$`)
)

// Instance gives a value as JSON has it, the way an editor's YAML reader would:
// nil, bool, float64, string, []any or map[string]any.
func Instance(v *header.Value) any {
	switch v.Kind {
	case header.List:
		out := make([]any, 0, len(v.Items))
		for i := range v.Items {
			out = append(out, Instance(&v.Items[i]))
		}
		return out
	case header.Map:
		out := make(map[string]any, len(v.Fields))
		for i := range v.Fields {
			out[v.Fields[i].Key] = Instance(&v.Fields[i].Value)
		}
		return out
	case header.Empty:
		return nil
	}
	if v.Style != header.Plain {
		return v.Text
	}
	return scalar(v.Text)
}

// scalar is a text without quotes as the core schema takes it. Figures too large
// for a float64 stay text, since JSON has no endless number.
func scalar(text string) any {
	switch {
	case isNull.MatchString(text):
		return nil
	case isBool.MatchString(text):
		return text[0] == 't' || text[0] == 'T'
	case isWhole.MatchString(text), isFloat.MatchString(text):
		if f, err := strconv.ParseFloat(text, 64); err == nil && !math.IsInf(f, 0) {
			return f
		}
	case isOther.MatchString(text):
		if n, err := strconv.ParseUint(text, 0, 52); err == nil {
			return float64(n)
		}
	}
	return text
}
