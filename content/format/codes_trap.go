package format

var trapCodes = []Code{}
