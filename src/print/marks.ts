/** A place on a page: millimetres from its upper left corner, x to the right and y downward. */
export type At = readonly [xMm: number, yMm: number]

/** An upright rectangle on a page. */
export interface Box {
  readonly xMm: number
  readonly yMm: number
  readonly wideMm: number
  readonly highMm: number
}

/** One step of an outline: move, line, cubic curve (two handles, then its end), close. */
export type Step =
  | readonly ['M', number, number]
  | readonly ['L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z']

export interface Fill {
  /** `#rrggbb`. */
  readonly colour: string
  readonly opacity: number
}

export interface Stroke extends Fill {
  readonly widthMm: number
  readonly dashMm: readonly number[]
  readonly cap: 'butt' | 'round' | 'square'
  readonly join: 'miter' | 'round' | 'bevel'
}

/** The bundled faces that print is set in. */
export const FACES = ['sans', 'sansBold', 'serif', 'serifItalic'] as const
export type Face = (typeof FACES)[number]

export interface PathMark {
  readonly draw: 'path'
  readonly steps: readonly Step[]
  /** By the even-odd rule, so that holes stay open. */
  readonly fill: Fill | null
  readonly stroke: Stroke | null
}

/** One line of words; `at` is where its baseline starts, is halfway, or ends. Turned clockwise about `at`. */
export interface TextMark {
  readonly draw: 'text'
  readonly text: string
  readonly at: At
  readonly sizeMm: number
  readonly face: Face
  readonly colour: string
  readonly anchor: 'start' | 'middle' | 'end'
  readonly turnDeg: number
  readonly halo: { readonly colour: string; readonly widthMm: number } | null
}

/** Marks shown only within an outline, by the even-odd rule. */
export interface GroupMark {
  readonly draw: 'group'
  readonly clip: readonly Step[]
  readonly marks: readonly Mark[]
}

/** A photo laid by its corners: upper left, upper right, lower right, lower left. */
export interface PhotoMark {
  readonly draw: 'photo'
  readonly id: string
  readonly corners: readonly [At, At, At, At]
  readonly opacity: number
}

/** An encoded picture (JPEG or PNG) filling a box. */
export interface ImageMark {
  readonly draw: 'image'
  readonly bytes: Uint8Array
  readonly box: Box
}

/** All that a page is made of, drawn in order. */
export type Mark = PathMark | TextMark | GroupMark | PhotoMark | ImageMark

export interface Page {
  readonly wideMm: number
  readonly highMm: number
  /** What the page is called in the file and the preview. */
  readonly name: string
  readonly marks: readonly Mark[]
}

export const SOLID: Pick<Stroke, 'opacity' | 'dashMm' | 'cap' | 'join'> = {
  opacity: 1,
  dashMm: [],
  cap: 'butt',
  join: 'miter',
}

export const lineMark = (from: At, to: At, colour: string, widthMm: number): PathMark => ({
  draw: 'path',
  steps: [
    ['M', ...from],
    ['L', ...to],
  ],
  fill: null,
  stroke: { ...SOLID, colour, widthMm },
})

export const boxSteps = ({ xMm, yMm, wideMm, highMm }: Box): readonly Step[] => [
  ['M', xMm, yMm],
  ['L', xMm + wideMm, yMm],
  ['L', xMm + wideMm, yMm + highMm],
  ['L', xMm, yMm + highMm],
  ['Z'],
]

export const boxMark = (box: Box, fill: string | null, stroke: string | null, widthMm = 0.2): PathMark => ({
  draw: 'path',
  steps: boxSteps(box),
  fill: fill === null ? null : { colour: fill, opacity: 1 },
  stroke: stroke === null ? null : { ...SOLID, colour: stroke, widthMm },
})

/** Words that start at a baseline, upright and without a halo. */
export const textMark = (
  text: string,
  at: At,
  sizeMm: number,
  face: Face,
  colour: string,
  anchor: TextMark['anchor'] = 'start',
): TextMark => ({ draw: 'text', text, at, sizeMm, face, colour, anchor, turnDeg: 0, halo: null })

/** A box less a margin on every side. */
export const inset = ({ xMm, yMm, wideMm, highMm }: Box, byMm: number): Box => ({
  xMm: xMm + byMm,
  yMm: yMm + byMm,
  wideMm: wideMm - 2 * byMm,
  highMm: highMm - 2 * byMm,
})

/** The same marks moved. */
export const moved = (marks: readonly Mark[], dx: number, dy: number): Mark[] => marks.map((m) => move(m, dx, dy))

function move(mark: Mark, dx: number, dy: number): Mark {
  const put = (x: number, y: number): At => [x + dx, y + dy]
  const at = ([x, y]: At): At => put(x, y)
  switch (mark.draw) {
    case 'path':
      return { ...mark, steps: mark.steps.map((step) => mapStep(step, put)) }
    case 'text':
      return { ...mark, at: at(mark.at) }
    case 'group':
      return { ...mark, clip: mark.clip.map((step) => mapStep(step, put)), marks: moved(mark.marks, dx, dy) }
    case 'photo': {
      const [a, b, c, d] = mark.corners
      return { ...mark, corners: [at(a), at(b), at(c), at(d)] }
    }
    case 'image':
      return { ...mark, box: { ...mark.box, xMm: mark.box.xMm + dx, yMm: mark.box.yMm + dy } }
  }
}

/** The same step with each of its places put elsewhere. */
export function mapStep(step: Step, put: (x: number, y: number) => At): Step {
  if (step[0] === 'Z') return step
  if (step[0] !== 'C') return [step[0], ...put(step[1], step[2])]
  const [, a, b, c, d, e, f] = step
  return ['C', ...put(a, b), ...put(c, d), ...put(e, f)]
}

/** The same marks so many times as large, from the upper left corner; outlines and words only, as charts have them. */
export const scaled = (marks: readonly Mark[], by: number): Mark[] =>
  marks.map((mark) => {
    if (mark.draw === 'text')
      return { ...mark, at: [mark.at[0] * by, mark.at[1] * by], sizeMm: mark.sizeMm * by } satisfies TextMark
    if (mark.draw !== 'path') throw new Error(`a ${mark.draw} can't be scaled`)
    const stroke = mark.stroke && {
      ...mark.stroke,
      widthMm: mark.stroke.widthMm * by,
      dashMm: mark.stroke.dashMm.map((dash) => dash * by),
    }
    return { ...mark, steps: mark.steps.map((step) => mapStep(step, (x, y) => [x * by, y * by])), stroke }
  })
