package format

// storyCodes are the findings made by following the entries in order of time,
// across files.
var storyCodes = []Code{}

// wordCodes are the findings made in a plant's line of plain words.
var wordCodes = []Code{}
