package format

var headerCodes = []Code{}
