package format

var folderCodes = []Code{}
