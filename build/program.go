package build

import (
	"crypto/sha256"
	"debug/elf"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"regexp"
)

// linkedID is a build ID as the linker makes it: four hashes, of what the program
// was made from and of what it is. One that somebody gave the linker instead may
// stand in many programs.
var linkedID = regexp.MustCompile(`[\w-]{20}(/[\w-]{20}){3}`)

// thisProgram names the program that runs, otherwise for any other: another
// Wardian may write another site.
func thisProgram() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	return programName(path)
}

// programName is the build ID that Go's linker writes into a program of Linux and
// its kin, which holds a hash of the program's content (go doc cmd/buildid). A
// program without one is named by a hash of its bytes, of which there are tens of
// millions.
func programName(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", fmt.Errorf("name the program: %w", err)
	}
	defer f.Close()
	if program, err := elf.NewFile(f); err == nil {
		if note := program.Section(".note.go.buildid"); note != nil {
			data, err := note.Data()
			if id := linkedID.Find(data); err == nil && id != nil {
				return "id " + string(id), nil
			}
		}
	}
	h := sha256.New()
	if _, err := io.Copy(h, io.NewSectionReader(f, 0, 1<<62)); err != nil {
		return "", fmt.Errorf("name the program: %w", err)
	}
	return "bytes " + hex.EncodeToString(h.Sum(nil)), nil
}
