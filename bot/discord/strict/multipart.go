package strict

import (
	"bytes"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// upload is files[n] of a multipart body.
type upload struct {
	n    int
	name string
	kind string // as declared
	data []byte
}

var filePart = regexp.MustCompile(`^files\[(\d{1,2})\]$`)

// pictures are what an attachment:// picture may be, by the end of its name.
var pictures = map[string]string{"png": "image/png", "jpg": "image/jpeg", "jpeg": "image/jpeg", "gif": "image/gif", "webp": "image/webp"}

// readParts reads payload_json and files[n].
func (c *call) readParts(boundary string) (answer, bool) {
	f := newForm(nil, pageReference)
	parts := multipart.NewReader(bytes.NewReader(c.data), boundary)
	seen := false
	for {
		p, err := parts.NextRawPart()
		if err == io.EOF {
			break
		}
		if err != nil {
			f.refuse("MULTIPART", "the parts cannot be read: %v", err)
			break
		}
		data, err := io.ReadAll(p)
		at := f.at(p.FormName())
		n := filePart.FindStringSubmatch(p.FormName())
		switch {
		case err != nil:
			at.refuse("MULTIPART", "cannot be read: %v", err)
		case p.FormName() == "payload_json" && !seen:
			seen = true
			if c.body.value, err = decode(data); err != nil {
				at.refuse("MULTIPART", "%v", err)
			}
		case n == nil:
			at.refuse("MULTIPART", "is neither a first payload_json nor files[n]")
		default:
			i, _ := strconv.Atoi(n[1])
			c.addFile(at, upload{i, p.FileName(), p.Header.Get("Content-Type"), data})
		}
	}
	if !seen {
		f.at("payload_json").need()
	}
	if len(c.body.files) > maxFiles {
		return refusal(400, 30015, "Maximum number of attachments in a message reached (10)").because(pageReference, "%d files", len(c.body.files)), true
	}
	if f.form.bad() {
		return f.form.answer(), true
	}
	return answer{}, false
}

func (c *call) addFile(at field, u upload) {
	switch {
	case u.name == "":
		at.refuse("MULTIPART", "has no filename")
	case slices.ContainsFunc(c.body.files, func(o upload) bool { return o.n == u.n }):
		at.refuse("MULTIPART", "is there twice")
	case len(u.data) > maxFile:
		at.refuse("50045", "has %d bytes, not %d at most", len(u.data), maxFile)
	case len(u.data) == 0:
		at.of(houseRule).refuse("MULTIPART", "is empty")
	}
	u.checkPicture(at)
	c.body.files = append(c.body.files, u)
}

// checkPicture holds the name, the declared type and the first bytes of a picture
// against each other.
func (u upload) checkPicture(at field) {
	found := http.DetectContentType(u.data)
	byName := pictures[extension(u.name)]
	declared, _, _ := mime.ParseMediaType(u.kind)
	if byName != "" && byName != found {
		at.refuse("MULTIPART", "is named %s but begins like %s", u.name, found)
	}
	if strings.HasPrefix(declared, "image/") && declared != found {
		at.refuse("MULTIPART", "is declared %s but begins like %s", declared, found)
	}
}

func extension(name string) string {
	return strings.ToLower(name[strings.LastIndex(name, ".")+1:])
}
