package format

var referenceCodes = []Code{}
