package content

import "wardian/content/measure"

// WordsEnv is what plain words need to know of the diary they stand in.
type WordsEnv struct {
	Units measure.Units // what a bare number means
	// Place finds a place by its ID. Where there is none, nearest is the ID that
	// was probably meant, or "".
	Place func(id string) (place *Place, nearest string)
}

// WordMark tells which characters of a plant's line say one thing. Key is the
// key that says the same in a map, with a dot between levels: "leaves.sizes".
// Start and End count characters from 0; End is exclusive.
type WordMark struct {
	Key        string
	Start, End int
}

// WordTrouble is a phrase that can't be read. Start and End count characters of
// the line from 0; End is exclusive.
type WordTrouble struct {
	Start, End int
	Code       string
	Message    string
	Expected   string
	Hint       string
}

// ParseWords reads a plant's line in plain words. Phrases that can't be read
// are left out of the facts and told as trouble; no text makes it panic.
func ParseWords(text string, env WordsEnv) (Facts, []WordMark, []WordTrouble) {
	return Facts{}, nil, nil
}
