import type { Box, GroupMark, Step, Stroke } from '../marks.ts'

/** Parallel lines across an area, `apartMm` from one to the next, turned clockwise from level; even over all of a box. */
export function hatched(
  area: readonly Step[],
  { xMm, yMm, wideMm, highMm }: Box,
  apartMm: number,
  turnDeg: number,
  stroke: Stroke,
): GroupMark {
  const rad = (turnDeg * Math.PI) / 180
  const [ux, uy] = [Math.cos(rad), Math.sin(rad)]
  const [x0, y0] = [xMm + wideMm / 2, yMm + highMm / 2]
  const reach = Math.hypot(wideMm, highMm) / 2
  const steps: Step[] = []
  for (let off = -Math.ceil(reach / apartMm) * apartMm; off <= reach; off += apartMm) {
    const [cx, cy] = [x0 - uy * off, y0 + ux * off]
    steps.push(['M', cx - ux * reach, cy - uy * reach], ['L', cx + ux * reach, cy + uy * reach])
  }
  return { draw: 'group', clip: area, marks: [{ draw: 'path', steps, fill: null, stroke }] }
}
