package paper

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"regexp"
	"strconv"
)

// What the update needs of a PDF's end, as the library writes it.
var (
	lastXref = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\s*$`)
	rootRef  = regexp.MustCompile(`/Root (\d+) 0 R`)
	infoRef  = regexp.MustCompile(`/Info (\d+) 0 R`)
	sizeOf   = regexp.MustCompile(`/Size (\d+)`)
)

// withPreferences appends an incremental update (ISO 32000-1, 7.5.6) that puts
// viewer preferences into the catalog: no scaling when printing, and paper by
// the size of the page. It also gives the file an ID made from its content.
//
//	%PDF ... objects, xref, trailer       as they were
//	N 0 obj << catalog again, and more >> endobj
//	xref    N 1                           where it is now
//	trailer /Prev the xref before
func withPreferences(file []byte) ([]byte, error) {
	end := lastXref.FindSubmatch(file)
	if end == nil {
		return nil, fmt.Errorf("no cross-reference table at its end")
	}
	prev, err := strconv.Atoi(string(end[1]))
	if err != nil || prev >= len(file) {
		return nil, fmt.Errorf("cross-reference table said to be at %s of %d bytes", end[1], len(file))
	}
	trailer := file[prev:]
	root, info, size := rootRef.FindSubmatch(trailer), infoRef.FindSubmatch(trailer), sizeOf.FindSubmatch(trailer)
	if root == nil || info == nil || size == nil {
		return nil, fmt.Errorf("trailer without root, info or size")
	}
	head := fmt.Appendf(nil, "\n%s 0 obj\n", root[1])
	at := bytes.LastIndex(file[:prev], head)
	if at < 0 {
		return nil, fmt.Errorf("no catalog as object %s", root[1])
	}
	catalog := file[at+1 : prev]
	stop := bytes.LastIndex(catalog, []byte(">>\nendobj"))
	if stop < 0 {
		return nil, fmt.Errorf("the catalog has no end")
	}
	var out bytes.Buffer
	out.Write(file)
	object := out.Len()
	out.Write(catalog[:stop])
	out.WriteString("/Version /1.7\n/ViewerPreferences <</PrintScaling /None /PickTrayByPDFSize true>>\n>>\nendobj\n")
	xref := out.Len()
	id := sha256.Sum256(out.Bytes())
	fmt.Fprintf(&out, "xref\n0 1\n0000000000 65535 f \n%s 1\n%010d 00000 n \n", root[1], object)
	fmt.Fprintf(&out, "trailer\n<<\n/Size %s\n/Root %s 0 R\n/Info %s 0 R\n/Prev %d\n/ID [<%x><%x>]\n>>\nstartxref\n%d\n%%%%EOF\n",
		size[1], root[1], info[1], prev, id[:16], id[:16], xref)
	return out.Bytes(), nil
}
