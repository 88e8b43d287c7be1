import { type Frame, toPaper, toPlane } from '../frame.ts'
import { type At, type Mark, SOLID, type Step, type TextMark } from '../marks.ts'
import { INK, MADDER } from './ink.ts'
import type { GridPage } from './mapGrid.ts'

const HALO = { colour: '#fffdf6', widthMm: 1 } as const

/** Where each page of the grid lies on the index, with its name. */
export function indexMarks(index: Frame, grid: readonly GridPage[], typeMm: number): Mark[] {
  const put = toPaper(index)
  const edges = grid.map(({ frame }): Mark => {
    const back = toPlane(frame)
    const { xMm, yMm, wideMm, highMm } = frame.box
    const corners: readonly At[] = [
      [xMm, yMm],
      [xMm + wideMm, yMm],
      [xMm + wideMm, yMm + highMm],
      [xMm, yMm + highMm],
    ]
    const steps = corners.map((corner, i): Step => [i === 0 ? 'M' : 'L', ...put(back(corner))])
    return {
      draw: 'path',
      steps: [...steps, ['Z']],
      fill: null,
      stroke: { ...SOLID, colour: MADDER, widthMm: 0.4, dashMm: [3, 1] },
    }
  })
  const size = typeMm * 2
  const names = grid.map(({ name, frame }): TextMark => {
    const [x, y] = put(frame.centre)
    const at: At = [x, y + size * 0.35]
    return {
      draw: 'text',
      text: name,
      at,
      sizeMm: size,
      face: 'serif',
      colour: MADDER,
      anchor: 'middle',
      turnDeg: 0,
      halo: HALO,
    }
  })
  return [...edges, ...names]
}

/** At each edge of a page, which page goes on there. */
export function joinMarks({ column, row, frame }: GridPage, grid: readonly GridPage[], typeMm: number): Mark[] {
  const { xMm, yMm, wideMm, highMm } = frame.box
  const sides = [
    { dc: 0, dr: -1, at: [xMm + wideMm / 2, yMm + typeMm * 1.3], turnDeg: 0 },
    { dc: 0, dr: 1, at: [xMm + wideMm / 2, yMm + highMm - typeMm * 0.6], turnDeg: 0 },
    { dc: -1, dr: 0, at: [xMm + typeMm * 1.3, yMm + highMm / 2], turnDeg: -90 },
    { dc: 1, dr: 0, at: [xMm + wideMm - typeMm * 0.6, yMm + highMm / 2], turnDeg: -90 },
  ] as const
  return sides.flatMap(({ dc, dr, at, turnDeg }): Mark[] => {
    const next = grid.find((page) => page.column === column + dc && page.row === row + dr)
    if (!next) return []
    const text = `map ${next.name}`
    return [
      { draw: 'text', text, at, sizeMm: typeMm, face: 'sansBold', colour: INK, anchor: 'middle', turnDeg, halo: HALO },
    ]
  })
}
