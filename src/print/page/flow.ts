import type { Box, Mark } from '../marks.ts'
import { lineMark, moved, scaled, textMark } from '../marks.ts'
import type { Type } from '../type/openFonts.ts'
import { wrap } from '../type/wrap.ts'
import type { Block, MapInset } from './blocks.ts'
import { INK, RULE, SOFT } from './ink.ts'
import { type LaidTable, layTable, type Piece } from './layTable.ts'

/** What is laid in a column: a piece, a table, a map that must know its place, or a new page. */
type Item =
  | { readonly is: 'piece'; readonly piece: Piece }
  | { readonly is: 'table'; readonly table: LaidTable; readonly after: number }
  | { readonly is: 'map'; readonly map: MapInset; readonly captionMm: number }
  | { readonly is: 'page' }

const GAP_MM = 8

/**
 * Blocks laid down one after another into columns of pages that leave the same `room`; answers each page's marks. A
 * heading stays with what it heads, a table's head is told again where the table goes on, and no line is cut.
 */
export function flow(blocks: readonly Block[], type: Type, typeMm: number, room: Box, columns: number): Mark[][] {
  const wide = (room.wideMm - (columns - 1) * GAP_MM) / columns
  const items = blocks.flatMap((block) => itemsOf(block, type, typeMm, wide))
  const pages: Mark[][] = [[]]
  const foot = room.yMm + room.highMm
  let column = 0
  let y = room.yMm
  const left = () => room.xMm + column * (wide + GAP_MM)
  const atTop = () => y === room.yMm
  const next = () => {
    column += 1
    if (column === columns) {
      column = 0
      pages.push([])
    }
    y = room.yMm
  }
  const put = (marks: readonly Mark[], highMm: number) => {
    pages.at(-1)!.push(...moved(marks, left(), y))
    y += highMm
  }
  items.forEach((item, i) => {
    switch (item.is) {
      case 'page':
        if (pages.at(-1)!.length > 0) {
          column = columns - 1
          next()
        }
        return
      case 'piece':
        if (!atTop() && y + item.piece.highMm + wantsBelow(items, i) > foot) next()
        put(item.piece.marks, item.piece.highMm)
        return
      case 'map': {
        const high = Math.min(item.map.highMm, room.highMm - item.captionMm)
        if (!atTop() && y + high + item.captionMm > foot) next()
        pages.at(-1)!.push(...item.map.draw({ xMm: left(), yMm: y, wideMm: wide, highMm: high }))
        y += high
        if (item.map.caption !== null)
          put([textMark(item.map.caption, [0, typeMm * 1.15], typeMm * 0.9, 'serifItalic', SOFT)], item.captionMm)
        y += typeMm
        return
      }
      case 'table': {
        const { head, again, lines } = item.table
        put(head.marks, head.highMm)
        lines.forEach((line, n) => {
          const stays = line.keepWithNext ? (lines[n + 1]?.highMm ?? 0) : 0
          if (y + line.highMm + stays > foot + 1e-6 && n > 0) {
            next()
            put(again.marks, again.highMm)
          }
          put(line.marks, line.highMm)
        })
        y += item.after
      }
    }
  })
  return pages
}

/** Height that must be left below a piece for what stays with it: through headings to the first lines of a table. */
function wantsBelow(items: readonly Item[], i: number): number {
  const item = items[i]!
  if (item.is !== 'piece' || !item.piece.keepWithNext) return 0
  const after = items[i + 1]
  if (!after || after.is === 'page') return 0
  if (after.is === 'piece') return after.piece.highMm + wantsBelow(items, i + 1)
  if (after.is === 'map') return after.map.highMm
  const { head, lines } = after.table
  return head.highMm + lines.slice(0, lines[0]?.keepWithNext ? 3 : 2).reduce((sum, line) => sum + line.highMm, 0)
}

function itemsOf(block: Block, type: Type, typeMm: number, wideMm: number): Item[] {
  const piece = (marks: readonly Mark[], highMm: number, keepWithNext = false): Item => ({
    is: 'piece',
    piece: { marks, highMm, keepWithNext },
  })
  /** Lines of words from a left edge; room above and below over the type size. */
  const lines = (
    text: string,
    size: number,
    face: 'sans' | 'serif' | 'serifItalic',
    colour: string,
    from = 0,
    [above, below]: readonly [number, number] = [0, 0.5],
  ): readonly [Mark[], number] => {
    const broken = wrap(type, text, face, size, wideMm - from)
    const marks = broken.map((line, n) => textMark(line, [from, (above + n * 1.25 + 0.95) * size], size, face, colour))
    return [marks, (above + broken.length * 1.25 + below) * size]
  }
  switch (block.block) {
    case 'heading': {
      const size = typeMm * (block.small ? 1.15 : 1.45)
      return [piece(...lines(block.text, size, 'serif', INK, 0, [0.45, 0.25]), true)]
    }
    case 'words':
      return [piece(...lines(block.text, typeMm, 'sans', block.soft ? SOFT : INK))]
    case 'figure': {
      const size = typeMm * 3.2
      const wide = type.widthMm(block.value, size, 'serif')
      const [grounds, high] = lines(block.words, typeMm * 1.05, 'sans', INK)
      const above = size * 1.15
      return [
        piece(
          [
            textMark(block.value, [0, size * 0.9], size, 'serif', INK),
            textMark(block.unit, [wide + typeMm * 0.6, size * 0.9], typeMm * 1.6, 'serif', SOFT),
            ...moved(grounds, 0, above),
          ],
          above + high + typeMm * 0.4,
        ),
      ]
    }
    case 'list':
      return block.items.map((item) => {
        const [marks, high] = lines(item, typeMm, 'sans', INK, typeMm * 1.3, [0, 0.3])
        return piece([lineMark([0.2, typeMm * 0.62], [typeMm * 0.75, typeMm * 0.62], INK, 0.25), ...marks], high)
      })
    case 'table':
      return [{ is: 'table', table: layTable(block.table, type, typeMm, wideMm), after: typeMm * 1.2 }]
    case 'map':
      return [{ is: 'map', map: block.map, captionMm: block.map.caption === null ? 0 : typeMm * 1.8 }]
    case 'chart': {
      const share = Math.min(1, wideMm / block.wideMm)
      const above = typeMm * 0.6
      return [piece(moved(scaled(block.marks, share), 0, above), block.highMm * share + 2 * above)]
    }
    case 'lines': {
      const apart = typeMm * 2.6
      return Array.from({ length: block.count }, () =>
        piece([lineMark([0, apart], [wideMm, apart], RULE, 0.15)], apart),
      )
    }
    case 'page':
      return [{ is: 'page' }]
  }
}
