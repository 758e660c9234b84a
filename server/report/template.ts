/**
 * How a page model is set, in the typesetter's language. It holds no words of its own but "Page n of m" and the
 * labels of a signature; everything else comes in as data and is never read as markup.
 */
import { family, monoFamily, wideFamily } from './font-names.ts';

export const template = `
#let report = json(bytes(sys.inputs.report))
#let grey = luma(110)
#let setting = report.at("setting", default: "report")
#let small = setting != "report"
#let body-size = if setting == "dense" { 7.2pt } else if small { 8pt } else { 9pt }
#let table-size = if setting == "dense" { 6.4pt } else if small { 7pt } else { 7.5pt }
#let note-size = if setting == "dense" { 6.4pt } else { 7.5pt }
#let gap(size) = if small { size * 0.5 } else { size }
#let words(value) = value.split("\\n").map(part => [#part]).join(linebreak())

#set document(
  title: report.title,
  description: report.description,
  author: if "author" in report { (report.author,) } else { () },
  keywords: report.at("keywords", default: ()),
  date: auto,
)
#set text(lang: report.language, font: ("${family}", "${wideFamily}"), size: body-size, fallback: false, hyphenate: false)
#set par(leading: 0.55em, spacing: 0.75em)
#set page(
  paper: "a4",
  margin: (x: 42pt, top: if small { 48pt } else { 62pt }, bottom: if small { 40pt } else { 50pt }),
  header: {
    set text(size: 8pt)
    grid(
      columns: (1fr, auto),
      align: (left + bottom, right + bottom),
      inset: (bottom: 4pt, right: 0pt),
      stroke: (bottom: 0.5pt),
      words(report.head.left),
      if report.head.marks.len() > 0 {
        box(stroke: 1pt, inset: (x: 5pt, y: 3pt), strong(report.head.marks.join(" · ")))
      },
    )
  },
  footer: context {
    set text(size: 7.5pt)
    grid(
      columns: (1fr, auto),
      inset: (top: 5pt),
      stroke: (top: 0.5pt),
      words(report.foot),
      [Page #counter(page).display() of #counter(page).final().first()],
    )
  },
)
#show heading.where(level: 1): it => block(above: gap(16pt), below: gap(8pt), sticky: true, text(size: if small { 10pt } else { 13pt }, it.body))
#show heading.where(level: 2): it => block(above: gap(12pt), below: gap(6pt), sticky: true, text(size: if small { 8pt } else { 10pt }, it.body))
#show title: it => block(below: gap(10pt), text(size: if setting == "dense" { 13pt } else { 17pt }, weight: "bold", it.body))
#show figure.caption: it => block(width: 100%, align(left, text(size: 7.5pt, fill: grey.darken(40%), it.body)))
#set figure(gap: 4pt)
#show figure: set block(breakable: false, above: gap(10pt), below: gap(12pt))
#set list(indent: 4pt, spacing: 0.55em)

#let frame(block-data) = block(
  width: 100%,
  stroke: if block-data.heavy { 1.6pt } else { 0.8pt },
  inset: (x: 9pt, y: 8pt),
  above: 8pt,
  below: 10pt,
  {
    text(size: 12.5pt, strong(words(block-data.headline)))
    for entry in block-data.lines {
      parbreak()
      words(entry)
    }
  },
)

#let figure-block(block-data) = block(above: gap(6pt), below: gap(8pt), grid(
  columns: (auto, 1fr),
  column-gutter: 16pt,
  align: horizon,
  {
    text(size: 8pt, words(block-data.label))
    linebreak()
    text(size: 24pt, strong(words(block-data.value)))
  },
  words(block-data.reason),
))

#let pairs(block-data) = block(above: gap(6pt), below: gap(9pt), breakable: not block-data.at("whole", default: false), table(
  columns: (if small { 90pt } else { 120pt }, 1fr),
  column-gutter: 8pt,
  stroke: none,
  inset: (x: 0pt, y: if small { 1pt } else { 2pt }),
  ..block-data.rows.map(row => (
    table.cell(text(fill: grey.darken(30%), words(row.at(0)))),
    table.cell(words(row.at(1))),
  )).flatten(),
))

#let cell-text(value, column) = if column.at("mono", default: false) {
  text(font: ("${monoFamily}", "${family}", "${wideFamily}"), size: 6.8pt, words(value))
} else { words(value) }

#let data-table(block-data) = {
  block(above: gap(12pt), below: gap(4pt) + 1pt, sticky: true, strong(words(block-data.caption)))
  if block-data.rows.len() == 0 {
    words(block-data.empty)
  } else {
    set text(size: table-size)
    set par(leading: 0.45em)
    table(
      columns: block-data.columns.map(column => column.share * 1fr),
      align: block-data.columns.map(column => if column.at("align", default: "left") == "right" { right } else { left }),
      stroke: (x, y) => if y == 0 { (top: 0.8pt, bottom: 0.8pt) } else { (bottom: 0.3pt + luma(140)) },
      inset: (x: 3pt, y: if small { 1.7pt } else { 3pt }),
      table.header(repeat: true, ..block-data.columns.map(column => table.cell(strong(words(column.heading))))),
      ..block-data.rows.map(row => {
        // A row stays whole unless it is long; one cell that must stay whole would keep its whole row so.
        let long = row.any(value => value.len() > 800 or value.matches("\\n").len() > 12)
        row.enumerate().map(((index, value)) => table.cell(
          breakable: long,
          cell-text(value, block-data.columns.at(index)),
        ))
      }).flatten(),
    )
  }
}

#let picture(block-data) = figure(
  align(left, image(
    bytes(block-data.svg), format: "svg", width: block-data.at("share", default: 100) * 1%, alt: block-data.alternative,
  )),
  caption: words(block-data.caption),
  supplement: none,
  numbering: none,
)

#let signatures(block-data) = block(above: gap(16pt), breakable: block-data.lines.len() > 5, for entry in block-data.lines {
  block(breakable: false, above: gap(10pt), below: gap(4pt), {
    strong(words(entry.role))
    [: ]
    words(entry.meaning)
    if "name" in entry { v(4pt) } else { v(if small { 12pt } else { 20pt }) }
    grid(
      columns: (3fr, 2fr, 3fr),
      column-gutter: 14pt,
      row-gutter: 3pt,
      ..if "name" in entry { (block(height: 18pt, align(bottom, words(entry.name))), [], []) } else { () },
      ..("Name", "Date and time", "Signature").map(label => {
        block(width: 100%, stroke: (top: 0.5pt), inset: (top: 3pt), text(size: 7.5pt, label))
      }),
    )
  })
})

#let limits(block-data) = block(width: 100%, above: gap(8pt), below: gap(10pt), grid(
  columns: block-data.items.map(_ => 1fr),
  stroke: 1.2pt,
  inset: (x: 6pt, y: 7pt),
  ..block-data.items.map(item => {
    text(size: 8pt, words(item.label))
    linebreak()
    text(size: if item.value.len() > 11 { 13pt } else { 25pt }, strong(words(item.value)))
  }),
))

#let code(block-data) = block(breakable: false, grid(
  columns: (76pt, 1fr),
  column-gutter: 8pt,
  align: horizon,
  image(bytes(block-data.svg), format: "svg", width: 100%, alt: block-data.alternative),
  {
    text(size: 13pt, strong(words(block-data.headline)))
    for entry in block-data.lines {
      parbreak()
      words(entry)
    }
  },
))

// In columns, read down; the sections that come before the contents are left out.
#let contents() = context {
  let entries = query(selector(heading.where(level: 1)).after(here()))
  let rows = calc.ceil(entries.len() / 2)
  let entry(index) = if index < entries.len() {
    let found = entries.at(index)
    (link(found.location(), found.body), [#counter(page).at(found.location()).first()])
  } else { ([], []) }
  set text(size: table-size)
  grid(
    columns: (1fr, 24pt, 24pt, 1fr, 24pt),
    align: (left, right, left, left, right),
    row-gutter: 4pt,
    ..range(rows).map(row => (..entry(row), [], ..entry(row + rows))).flatten(),
  )
}

#let mono(block-data) = block(above: 6pt, below: 8pt, {
  strong(words(block-data.label))
  linebreak()
  text(font: ("${monoFamily}", "${family}", "${wideFamily}"), size: 8.5pt, words(block-data.text))
})

#let set-block(block-data) = {
  let kind = block-data.kind
  if kind == "paragraph" {
    let weight = block-data.at("weight", default: "normal")
    if weight == "strong" { par(strong(words(block-data.text))) }
    else if weight == "small" { par(text(size: note-size, words(block-data.text))) }
    else { par(words(block-data.text)) }
  } else if kind == "subheading" { heading(level: 2, words(block-data.text)) }
  else if kind == "frame" { frame(block-data) }
  else if kind == "figure" { figure-block(block-data) }
  else if kind == "list" { list(..block-data.items.map(words)) }
  else if kind == "pairs" { pairs(block-data) }
  else if kind == "table" { data-table(block-data) }
  else if kind == "picture" { picture(block-data) }
  else if kind == "limits" { limits(block-data) }
  else if kind == "code" { code(block-data) }
  else if kind == "mono" { mono(block-data) }
  else if kind == "signatures" { signatures(block-data) }
  else if kind == "contents" { contents() }
  else { panic("unknown block " + kind) }
}

#let section(entry) = {
  heading(level: 1, words(entry.heading))
  for block-data in entry.blocks { set-block(block-data) }
}
#let first-page = {
  for entry in report.above { set-block(entry) }
  title(words(report.title))
  section(report.sections.first())
}
// Page one is read by itself: where it would run over by a little, it is set smaller.
#layout(size => {
  let tight(body) = { set text(size: 8.2pt); set par(leading: 0.45em, spacing: 0.6em); body }
  if not small and measure(width: size.width, first-page).height > size.height { tight(first-page) } else { first-page }
})
#for entry in report.sections.slice(1) {
  if entry.at("newPage", default: false) { pagebreak(weak: true) }
  if entry.at("whole", default: false) { block(breakable: false, above: gap(16pt), section(entry)) } else { section(entry) }
}
`;
