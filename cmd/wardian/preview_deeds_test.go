package main

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"time"
)

// player does what acts say.
type player struct {
	*twins
	files map[string][]byte // as they were
	hurt  []string          // paths that were written, renamed or deleted, the last one last
	count int
}

// deeds are the operations, each with how often it comes.
var deeds = []struct {
	name  string
	often uint64
	do    func(p *player, name string, how uint64) string
}{
	{"edit", 8, func(p *player, name string, how uint64) string {
		p.put(name, another(name, p.bytes(name), how), how%2 == 0)
		return "edit " + name
	}},
	{"break", 4, func(p *player, name string, how uint64) string {
		data := p.bytes(name)
		if strings.HasPrefix(name, "photos/") {
			how -= how % 6 // one that is cut short is known to be broken once it was asked for, which is another test's matter
		}
		switch how % 6 {
		case 0:
			data = nil
		case 1:
			data = data[:len(data)/2]
		case 2:
			data = bytes.Replace(data, []byte("---\n"), []byte("---\nplaice: tote\n"), 1)
		case 3:
			data = bytes.Replace(data, []byte(": "), []byte(": [\xff"), 1)
		case 4:
			data = bytes.Replace(data, []byte("date: 20"), []byte("date: 30"), 1)
		case 5:
			data = append(bytes.Clone(data), "[nowhere](specimens/b26-99) ![nothing](photos/none.jpg)\n"...)
		}
		p.put(name, data, how%2 == 0)
		return fmt.Sprintf("break %s in way %d", name, how%6)
	}},
	{"delete", 3, func(p *player, name string, how uint64) string {
		p.drop(name)
		return "delete " + name
	}},
	{"rename", 3, func(p *player, name string, how uint64) string {
		to := strings.TrimSuffix(name, path.Ext(name)) + fmt.Sprintf("-%d", how%3) + path.Ext(name)
		if how%4 == 0 {
			others := p.all(false)
			to = path.Join(path.Dir(others[how/4%uint64(len(others))]), path.Base(name))
		}
		if to == name || p.tree[to].mode.IsDir() {
			return p.touch(name)
		}
		p.move(name, to)
		p.hurt = append(p.hurt, to)
		return "rename " + name + " to " + to
	}},
	{"swap", 1, func(p *player, name string, how uint64) string {
		others := p.all(false)
		other := others[how%uint64(len(others))]
		if other != name {
			p.move(name, "passing")
			p.move(other, name)
			p.move("passing", other)
			p.hurt = append(p.hurt, other)
		}
		return "swap " + name + " with " + other
	}},
	{"rename folder", 2, func(p *player, name string, how uint64) string {
		folder := p.folder(how)
		to := fmt.Sprintf("%s-%d", folder, how%2)
		if how%3 == 0 {
			to = "check-ins/in/" + path.Base(folder)
		}
		if strings.HasPrefix(to, folder+"/") || p.there(to) {
			return p.touch(name)
		}
		p.move(folder, to)
		return "rename folder " + folder + " to " + to
	}},
	{"folder out and back", 2, func(p *player, name string, how uint64) string {
		folder := p.folder(how)
		away := p.dir + " away"
		p.name(folder)
		must(os.Rename(p.at(folder), away))
		if how%2 == 0 {
			p.tell()
		}
		must(os.Rename(away, p.at(folder)))
		p.name(folder)
		return fmt.Sprintf("folder %s out and back, told of between %t", folder, how%2 == 0)
	}},
	{"touch", 2, func(p *player, name string, how uint64) string { return p.touch(name) }},
	{"same size and time", 2, func(p *player, name string, how uint64) string {
		info, err := os.Stat(p.at(name))
		must(err)
		data := bytes.Clone(p.bytes(name))
		from, to := []byte("firm"), []byte("soft")
		if how%2 == 0 {
			from, to = to, from
		}
		if !bytes.Contains(data, from) {
			from, to = []byte("2"), []byte("3")
		}
		if strings.HasPrefix(name, "photos/") && len(data) > 0 {
			data = append(data[:len(data)-1], byte(how/4))
		} else if at := bytes.LastIndex(data, from); at >= 0 {
			copy(data[at:], to)
		}
		p.put(name, data, how%4 < 2)
		must(os.Chtimes(p.at(name), info.ModTime(), info.ModTime()))
		return "same size and time, other bytes: " + name
	}},
	{"new", 3, func(p *player, name string, how uint64) string {
		p.count++
		var at, text string
		switch how % 6 {
		case 0:
			at, text = fmt.Sprintf("photos/2026-04-0%d/b26-0%d.jpg", 6+how%3, 1+how/6%6), string(sketch(uint8(how/36)))
		case 1:
			at, text = fmt.Sprintf("check-ins/2026/new-%d.md", p.count), fmt.Sprintf("---\ndate: 2026-04-%02d\nspecimen: b26-05\nturgor: %s\n---\nA look.\n", 7+how/6%20, []string{"firm", "soft"}[how/6%2])
		case 2:
			at, text = fmt.Sprintf("updates/new-%d.md", p.count), "---\ntitle: New\ndate: 2026-04-08\n---\n```plate\nshow: causes\n```\n"
		case 3:
			at, text = fmt.Sprintf("specimens/n-%d.md", p.count), "---\nname: Hoya siariae\nimport: 2025-autumn-a\n---\n"
		case 4:
			at, text = fmt.Sprintf("places/n-%d.md", p.count), "---\nname: Another\nstage: room\n---\n"
		case 5:
			at, text = fmt.Sprintf("%s/odd-%d.txt", path.Dir(name), p.count), "What is this?"
		}
		p.put(at, []byte(text), how%4 < 2)
		p.hurt = append(p.hurt, at)
		return "new " + at
	}},
}

func (p *player) do(a act) (kind, what string) {
	names := p.all(false)
	// A diary that is broken is mended more often than not, so that most
	// comparisons are of pages.
	if a.kind%100 < 15 || p.reading.Site == nil && a.kind%100 < 75 || len(names) < 10 {
		return "mend", p.mend(a.which, a.how)
	}
	var sum uint64
	for _, d := range deeds {
		sum += d.often
	}
	at := a.kind / 100 % sum
	for _, d := range deeds {
		if at < d.often {
			name := names[a.which%uint64(len(names))]
			p.hurt = append(p.hurt, name)
			return d.name, d.do(p, name, a.how)
		}
		at -= d.often
	}
	panic("unreachable: at is below the sum")
}

// mend puts back the file that was hurt last, or any, or all.
func (p *player) mend(which, how uint64) string {
	back := func(name string) {
		if data, was := p.files[name]; was {
			for folder := path.Dir(name); folder != "."; folder = path.Dir(folder) {
				if info, err := os.Lstat(p.at(folder)); err == nil && !info.IsDir() {
					p.drop(folder)
				}
			}
			p.put(name, data, how%2 == 0)
		} else if p.there(name) {
			p.drop(name)
		}
	}
	switch {
	case how%8 < 2 || len(p.hurt) == 0:
		for _, name := range p.all(false) {
			if p.files[name] == nil {
				p.drop(name)
			}
		}
		for _, name := range slices.Sorted(maps.Keys(p.files)) {
			if !bytes.Equal(p.bytes(name), p.files[name]) {
				back(name)
			}
		}
		p.hurt = nil
		return "put everything back"
	case how%8 < 6:
		name := p.hurt[len(p.hurt)-1]
		p.hurt = p.hurt[:len(p.hurt)-1]
		back(name)
		return "put back " + name
	default:
		names := slices.Sorted(maps.Keys(p.files))
		name := names[which%uint64(len(names))]
		back(name)
		return "put back " + name
	}
}

func (p *player) touch(name string) string {
	must(os.Chtimes(p.at(name), time.Time{}, time.Now().Add(time.Second)))
	p.untold[name] = true
	return "touch " + name
}

func (p *player) there(name string) bool {
	_, err := os.Lstat(p.at(name))
	return err == nil
}

// bytes are a file's; none where there is none.
func (p *player) bytes(name string) []byte {
	data, _ := os.ReadFile(p.at(name))
	return data
}

// all are the paths of the files that are there, or of the folders.
func (p *player) all(folders bool) []string {
	var out []string
	for name, item := range p.look() {
		if item.mode.IsDir() == folders {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

func (p *player) folder(how uint64) string {
	folders := p.all(true)
	return folders[how/6%uint64(len(folders))]
}

// another edits a file of any kind, otherwise for another how.
func another(name string, data []byte, how uint64) []byte {
	if strings.HasPrefix(name, "photos/") {
		return sketch(uint8(how))
	}
	text := sensible(name, data)
	if how%3 > 0 && strings.HasSuffix(name, ".md") {
		text = append(bytes.Clone(data), fmt.Sprintf("Word %d.\n", how%1000)...)
	}
	return text
}
