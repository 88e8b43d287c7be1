import { type Block, heading, type PrintRow, words } from '../../print/page/blocks.ts'
import { readChart } from './readChart.ts'

/** What is for doing, not for reading; and what says itself that it does not print. */
const LEFT_OUT =
  'form, fieldset, label, details, nav, input, select, textarea, progress, svg, .unseen, [data-print="no"]'

/** Drawings that tell something by themselves; others are marks beside words. */
const CHART = '.chart, .plain-chart'

/**
 * A sheet's panel as it stands, in the order and with the sorting that it has on the screen: headings, the large figure,
 * tables with their groups, charts, lists, plain words. Buttons are left out but where they stand in a table or a list.
 */
export function readPanel(panel: HTMLElement): readonly Block[] {
  const blocks: Block[] = []
  walk(panel, blocks)
  return blocks
}

/** Words as they are read, without what is kept for screen readers. */
function wordsOf(element: Element): string {
  if (element.matches(LEFT_OUT)) return ''
  const parts = [...element.childNodes].map((node) =>
    node instanceof Element ? ` ${wordsOf(node)}` : (node.textContent ?? ''),
  )
  return parts
    .join('')
    .replace(/\s+/g, ' ')
    .replace(/\s+([,.;:)])/g, '$1')
    .trim()
}

function walk(element: Element, blocks: Block[]): void {
  for (const child of element.children) {
    if (child instanceof SVGSVGElement && child.matches(CHART)) {
      const chart = readChart(child)
      if (chart) blocks.push(chart)
    }
    if (child.matches(LEFT_OUT)) continue
    const text = wordsOf(child)
    if (/^H[1-6]$/.test(child.tagName)) {
      if (text !== '') blocks.push(heading(text, child.tagName !== 'H1' && child.tagName !== 'H2'))
    } else if (child.tagName === 'TABLE') blocks.push(tableOf(child))
    else if (child.tagName === 'UL' || child.tagName === 'OL') {
      const items = [...child.children].map(itemOf).filter((item) => item !== '')
      if (items.length > 0) blocks.push({ block: 'list', items })
    } else if (child.matches('.figure')) blocks.push(figureOf(child))
    else if (child.tagName === 'DL') {
      const items = [...child.children].map(wordsOf).filter((item) => item !== '')
      blocks.push({ block: 'list', items })
    } else if (child.tagName === 'P') {
      if (text !== '' && !child.matches('.hint') && !holdsButtonsOnly(child)) blocks.push(words(text))
    } else if (child.tagName !== 'BUTTON') walk(child, blocks)
  }
}

const holdsButtonsOnly = (line: Element) =>
  [...line.childNodes].every((node) =>
    node instanceof Element ? node.tagName === 'BUTTON' : node.textContent?.trim() === '',
  )

/** An item's parts that stand below one another on the screen follow one another on paper. */
const itemOf = (item: Element): string =>
  item.childElementCount > 1
    ? [...item.children]
        .map(wordsOf)
        .filter((part) => part !== '')
        .join('. ')
    : wordsOf(item)

function figureOf(figure: Element): Block {
  const told = (of: string) => {
    const found = figure.querySelector(of)
    return found ? wordsOf(found) : ''
  }
  const unit = told('.figure-unit')
  const value = told('.figure-value')
  return {
    block: 'figure',
    value: unit === '' ? value : value.slice(0, value.length - unit.length).trim(),
    unit,
    words: told('.figure-grounds'),
  }
}

/** Words of a head: the arrow that tells the sorting stays on the screen. */
const headOf = (cell: Element) => wordsOf(cell).replace(/ ?[↓↑]$/, '')

function tableOf(table: Element): Block {
  const heads = [...table.querySelectorAll('thead th')]
  const rows = [...table.querySelectorAll('tbody tr')].map((row): PrintRow => {
    const cells = [...row.children]
    if (cells.length === 1 && row.matches('.group')) return { heading: wordsOf(cells[0]!) }
    return { cells: cells.map(wordsOf) }
  })
  const caption = table.querySelector('caption')?.textContent?.trim() ?? ''
  return {
    block: 'table',
    table: {
      caption,
      columns: heads.map((head) => ({ head: headOf(head), number: head.classList.contains('number') })),
      rows,
      ticked: false,
    },
  }
}
