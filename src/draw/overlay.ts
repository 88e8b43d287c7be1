import './draw.css'

export type Pixel = readonly [x: number, y: number]

/** What lies over the map while something is drawn, in CSS pixels from the map's upper left corner. */
export interface OverlayPicture {
  /** Rings of the ground that is or would be enclosed. */
  readonly area: readonly (readonly Pixel[])[]
  /** Lines that stand, and those that would come with the pointer where it is. */
  readonly drawn: readonly (readonly Pixel[])[]
  readonly coming: readonly (readonly Pixel[])[]
  /** The shape could not be kept as it is. */
  readonly faulty: boolean
  readonly marks: readonly OverlayMark[]
  readonly words: readonly { readonly at: Pixel; readonly turnDeg: number; readonly text: string }[]
  readonly crosshair: Pixel | null
}
export interface OverlayMark {
  readonly at: Pixel
  readonly as: 'corner' | 'middle' | 'whole' | 'snapped'
  /** A chosen corner is filled; a first corner that would close the ring is larger. */
  readonly chosen: boolean
  readonly large: boolean
}

export interface Overlay {
  draw(picture: OverlayPicture): void
  /** Leaves only the shape, without handles and words: it stands until the map has drawn it itself. */
  settle(): void
  remove(): void
}

const SVG = 'http://www.w3.org/2000/svg'
const round = (n: number) => Math.round(n * 10) / 10

const pathOf = (lines: readonly (readonly Pixel[])[], close: boolean): string =>
  lines
    .filter((line) => line.length > 1)
    .map((line) => `M${line.map(([x, y]) => `${round(x)} ${round(y)}`).join('L')}${close ? 'Z' : ''}`)
    .join('')

/** Corners are squares, middles dots, the whole a cross of arrows' size, what the pointer is held to a ring: told apart by shape. */
function markPath({ at: [x, y], as, large }: OverlayMark): string {
  const r = large ? 8 : { corner: 5, middle: 3.5, whole: 8, snapped: 9 }[as]
  if (as === 'corner') return `M${round(x - r)} ${round(y - r)}h${2 * r}v${2 * r}h${-2 * r}Z`
  const ring = `M${round(x - r)} ${round(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`
  return as === 'whole' ? `${ring}M${round(x - 5)} ${round(y)}h10M${round(x)} ${round(y - 5)}v10` : ring
}

/** A drawing surface over a map's element, under nothing and deaf to the pointer. */
export function makeOverlay(container: HTMLElement): Overlay {
  const svg = document.createElementNS(SVG, 'svg')
  svg.setAttribute('class', 'sketch')
  svg.setAttribute('aria-hidden', 'true')
  container.append(svg)
  const element = (name: string, attributes: Readonly<Record<string, string>>, text?: string) => {
    const made = document.createElementNS(SVG, name)
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value)
    if (text !== undefined) made.textContent = text
    return made
  }
  return {
    draw({ area, drawn, coming, faulty, marks, words, crosshair }) {
      const faultyClass = faulty ? ' faulty' : ''
      const parts: Element[] = [
        element('path', { class: 'area', d: pathOf(area, true) }),
        element('path', { class: 'casing', d: pathOf([...drawn, ...coming], false) }),
        element('path', { class: `drawn${faultyClass}`, d: pathOf(drawn, false) }),
        element('path', { class: `coming${faultyClass}`, d: pathOf(coming, false) }),
      ]
      for (const mark of marks)
        parts.push(element('path', { class: `${mark.as}${mark.chosen ? ' chosen' : ''}`, d: markPath(mark) }))
      for (const { at, turnDeg, text } of words)
        parts.push(
          element(
            'text',
            { transform: `translate(${round(at[0])} ${round(at[1])}) rotate(${round(turnDeg)})`, y: '-11' },
            text,
          ),
        )
      if (crosshair) {
        const [x, y] = crosshair.map(round)
        parts.push(element('path', { class: 'crosshair', d: `M${x} ${y! - 16}v32M${x! - 16} ${y}h32` }))
      }
      svg.replaceChildren(...parts)
    },
    settle: () => svg.classList.add('settled'),
    remove: () => svg.remove(),
  }
}
