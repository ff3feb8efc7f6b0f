package format

var keyCodes = []Code{}
