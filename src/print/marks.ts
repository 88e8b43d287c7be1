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
  const at = ([x, y]: At): At => [x + dx, y + dy]
  switch (mark.draw) {
    case 'path':
      return { ...mark, steps: mark.steps.map((step) => moveStep(step, dx, dy)) }
    case 'text':
      return { ...mark, at: at(mark.at) }
    case 'group':
      return { ...mark, clip: mark.clip.map((step) => moveStep(step, dx, dy)), marks: moved(mark.marks, dx, dy) }
    case 'photo': {
      const [a, b, c, d] = mark.corners
      return { ...mark, corners: [at(a), at(b), at(c), at(d)] }
    }
    case 'image':
      return { ...mark, box: { ...mark.box, xMm: mark.box.xMm + dx, yMm: mark.box.yMm + dy } }
  }
}

function moveStep(step: Step, dx: number, dy: number): Step {
  if (step[0] === 'Z') return step
  if (step[0] !== 'C') return [step[0], step[1] + dx, step[2] + dy]
  const [, a, b, c, d, e, f] = step
  return ['C', a + dx, b + dy, c + dx, d + dy, e + dx, f + dy]
}
