package format

var valueCodes = []Code{}
