package prose

import (
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/util"
)

// markdown is the parser: CommonMark with tables and footnotes, each part
// wrapped. It may be shared by goroutines.
var markdown = func() parser.Parser {
	var blocks, inlines, paragraphs []util.PrioritizedValue
	for _, b := range append(parser.DefaultBlockParsers(), util.Prioritized(extension.NewFootnoteBlockParser(), 999)) {
		blocks = append(blocks, util.Prioritized(block{b.Value.(parser.BlockParser)}, b.Priority))
	}
	free := func(*meter, []byte, int) int { return 0 }
	inlines = []util.PrioritizedValue{
		util.Prioritized(inline{parser.NewCodeSpanParser(), codeCost}, 100),
		util.Prioritized(noteLink{inline{extension.NewFootnoteParser(), noteCost}}, 101),
		util.Prioritized(link{inline{parser.NewLinkParser(), linkCost}}, 200),
		util.Prioritized(inline{parser.NewAutoLinkParser(), free}, 300),
		util.Prioritized(inline{parser.NewRawHTMLParser(), htmlCost}, 400),
		util.Prioritized(emphasis{}, 500),
	}
	paragraphs = []util.PrioritizedValue{
		util.Prioritized(paragraph{parser.LinkReferenceParagraphTransformer, definitionsCost}, 100),
		util.Prioritized(paragraph{extension.NewTableParagraphTransformer(), tableCost}, 200),
	}
	return parser.NewParser(
		parser.WithBlockParsers(blocks...),
		parser.WithInlineParsers(inlines...),
		parser.WithParagraphTransformers(paragraphs...),
		parser.WithASTTransformers(
			util.Prioritized(extension.NewTableASTTransformer(), 0),
			util.Prioritized(extension.NewFootnoteASTTransformer(), 999),
		),
	)
}()
