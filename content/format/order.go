package format

// Order is a planned order, which a forecast reads. It is YAML from end to end,
// lies anywhere and bears any name: it tells of plants that may never come, so it
// is no part of a diary, and nothing of it is shown.
var Order = File{
	Name: "order", Path: "ORDER.yaml",
	About: "A planned order, for wardian forecast alone. It may lie anywhere, under any name, and is no part of the site.",
	Keys: []Key{
		{Name: "lines", Value: Value{Kind: List, Item: &Value{Kind: Map, Keys: []Key{
			{Name: "name", Value: Value{Kind: Text}, Required: true, Example: "Hoya callistophylla", About: "The plant's name."},
			{Name: "size", Value: Find(Specimen.Keys, "size").Value, Example: "small", About: "The plant against its own kind full-grown."},
			{Name: "count", Value: Value{Kind: Whole}, Default: "1", Example: "2", About: "How many of them."},
			{Name: "price", Value: Value{Kind: Money}, Example: "45 USD", About: "The price of one. A gift is 0."},
		}}}, Required: true, Example: "[{name: Hoya callistophylla, size: small, count: 2, price: 45 USD}]",
			About: "The plants, those of one kind on a line."},
		{Name: "costs", Value: Find(Import.Keys, "costs").Value, Example: "{freight: 120 USD, phytosanitary: 45 USD, customs: 38}",
			About: "What comes on top of the prices, under any words. A discount is negative. The cost is of the whole order, whatever shared-by says."},
		{Name: "rates", Value: Find(Import.Keys, "rates").Value, Example: "{USD: 10.52}", About: "What one of each other currency costs, in the diary's currency."},
		{Name: "exporter", Value: Value{Kind: Text}, Example: "exporter B", About: "Whom it would come from, as imports write it."},
		{Name: "private", Value: Value{Kind: Anything}, Example: `{exporter: "the real name"}`, About: "Notes for the grower alone. Nothing under it is read."},
	},
}
