import './draw.css'

export type Pixel = readonly [x: number, y: number]

/** What lies over the map while something is drawn, in CSS pixels from the map's upper left corner. */
export interface OverlayPicture {
  /** Rings of the ground that is or would be enclosed. */
  readonly area: readonly (readonly Pixel[])[]
  /** Lines that stand, and those that would come with the pointer where it is. */
  readonly drawn: readonly (readonly Pixel[])[]
  readonly coming: readonly (readonly Pixel[])[]
  /** Lines of what goes along, or is shown as it would become. */
  readonly soft?: readonly (readonly Pixel[])[]
  /** What the pointer is held to, named at its line's middle. */
  readonly guides?: readonly {
    readonly line: readonly Pixel[]
    readonly by: readonly Pixel[] | null
    readonly name: string
  }[]
  /** A box being drawn, from corner to corner. */
  readonly box?: readonly [Pixel, Pixel] | null
  /** The shape could not be kept as it is. */
  readonly faulty: boolean
  readonly marks: readonly OverlayMark[]
  readonly words: readonly { readonly at: Pixel; readonly turnDeg: number; readonly text: string }[]
  readonly crosshair: Pixel | null
}
export interface OverlayMark {
  readonly at: Pixel
  readonly as: 'corner' | 'middle' | 'whole' | 'snapped' | 'turn'
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

/** A dot for each line that is only a place. */
const dotsOf = (lines: readonly (readonly Pixel[])[]): string =>
  lines
    .flatMap((line) => (line.length === 1 ? [line[0]!] : []))
    .map(([x, y]) => `M${round(x - 4)} ${round(y)}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0Z`)
    .join('')

/** The names of guides beside the end that the pointer is held to, one under another. */
function guideNames(guides: NonNullable<OverlayPicture['guides']>): { x: number; y: number; name: string }[] {
  const [x, y] = guides[0]?.line.at(-1) ?? [0, 0]
  return guides.map(({ name }, n) => ({ x: round(x + 16), y: round(y + 18 + n * 16), name }))
}

/** Corners are squares, middles dots, the whole a cross in a ring, the turn a bent arrow in one, what the pointer is held to a ring: told apart by shape. */
function markPath({ at: [x, y], as, large }: OverlayMark): string {
  const r = large ? 8 : { corner: 5, middle: 3.5, whole: 8, snapped: 9, turn: 8 }[as]
  if (as === 'corner') return `M${round(x - r)} ${round(y - r)}h${2 * r}v${2 * r}h${-2 * r}Z`
  const ring = `M${round(x - r)} ${round(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`
  if (as === 'turn')
    return `${ring}M${round(x - 4)} ${round(y + 1)}a4 4 0 1 1 4 3.5M${round(x - 6.5)} ${round(y - 1)}l2.5 2.5l2.5-2.5`
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
    draw({ area, drawn, coming, soft = [], guides = [], box, faulty, marks, words, crosshair }) {
      const faultyClass = faulty ? ' faulty' : ''
      const parts: Element[] = [
        element('path', { class: 'area', d: pathOf(area, true) }),
        element('path', {
          class: 'guide by',
          d: pathOf(
            guides.flatMap(({ by }) => (by ? [by] : [])),
            false,
          ),
        }),
        element('path', {
          class: 'guide',
          d: pathOf(
            guides.map(({ line }) => line),
            false,
          ),
        }),
        element('path', { class: 'soft', d: pathOf(soft, false) + dotsOf(soft) }),
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
      for (const text of guideNames(guides))
        parts.push(element('text', { class: 'guide-name', x: `${text.x}`, y: `${text.y}` }, text.name))
      if (box) {
        const [[x, y], [u, v]] = box
        parts.push(
          element('path', { class: 'box', d: `M${round(x)} ${round(y)}H${round(u)}V${round(v)}H${round(x)}Z` }),
        )
      }
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
