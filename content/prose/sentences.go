package prose

import "strings"

// Sentences parts a text into its sentences, each as it is written, by the same
// rule as FirstSentence. A line's end ends a sentence, as a block's end does in
// what Plain gives.
func Sentences(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		for line = strings.TrimSpace(line); line != ""; {
			first := sentence(line)
			out = append(out, first)
			line = strings.TrimSpace(line[len(first):])
		}
	}
	return out
}
