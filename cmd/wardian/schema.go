package main

import (
	"embed"
	"fmt"
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"wardian/content/format"
	"wardian/content/schema"
	"wardian/content/source"
)

// The schemas of what commands print with --json, one a command. They are kept
// by hand: a key of them is a promise, and is only ever added.
//
//go:embed schemas/*.json
var outputSchemas embed.FS

// outputs is the ending of the names of those schemas: "proof-json".
const outputs = "-json"

func newSchema() *cobra.Command {
	return &cobra.Command{
		Use:  "schema [KIND]",
		Long: helpText("schema"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				for _, name := range schemaNames() {
					fmt.Fprintln(cmd.OutOrStdout(), name)
				}
				fmt.Fprintln(cmd.ErrOrStderr(), "next: wardian schema "+schemaNames()[0])
				return nil
			}
			text, err := schemaText(strings.Join(args, " "))
			if err == nil {
				_, err = cmd.OutOrStdout().Write(text)
			}
			return err
		},
	}
}

// schemaText is the schema of a kind of file, or of what a command prints.
func schemaText(asked string) ([]byte, error) {
	word := strings.ToLower(asked)
	if f := kindOf(word); f != nil {
		return schema.Of(f), nil
	}
	if command, ok := strings.CutSuffix(word, outputs); ok {
		if text, err := outputSchemas.ReadFile("schemas/" + command + ".json"); err == nil {
			return text, nil
		}
	}
	use := wrongUse{message: fmt.Sprintf("there is no schema of %q", asked), next: "the schemas: " + strings.Join(schemaNames(), ", ")}
	if near := source.Nearest(word, schemaNames()); near != "" {
		use.next = "nearest: wardian schema " + near
	}
	return nil, use
}

// schemaNames are the names of all schemas: kinds of file, then outputs.
func schemaNames() []string {
	var out []string
	for _, f := range format.Files() {
		out = append(out, fileWord(f))
	}
	files, err := fs.ReadDir(outputSchemas, "schemas")
	if err != nil {
		panic("wardian: no embedded schemas: " + err.Error()) // only if the embed line above is changed
	}
	for _, f := range files {
		out = append(out, strings.TrimSuffix(f.Name(), ".json")+outputs)
	}
	return out
}
