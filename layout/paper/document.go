package paper

// Document is a PDF to be: pages that stay open until PDF writes them all.
type Document struct {
	Title string
	pages []*Page
}

// Page is a page of a document. Its origin is the paper's top-left corner.
type Page struct {
	*Drawing
	Size     Size // as it lies: Across for landscape
	numbered bool // has a frame, and so its number
}

// NewDocument returns a document without pages.
func NewDocument(title string) *Document { return &Document{Title: title} }

// Page appends a page.
func (d *Document) Page(s Size) *Page {
	p := &Page{Drawing: NewDrawing(s.W, s.H), Size: s}
	d.pages = append(d.pages, p)
	return p
}

// Pages returns the pages so far; drawing on one later is fine, for instance
// its number when all are known.
func (d *Document) Pages() []*Page { return d.pages }
