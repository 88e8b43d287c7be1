import type { Metres } from '../../../geo/plane/lonLat.ts'
import { distanceM } from '../measureShape.ts'
import { type Corners, twiceArea } from '../shape.ts'
import { crossing, within } from './cutRing.ts'

/** Corners nearer to each other than this are one: a hundredth of a millimetre. */
const SAME_M = 1e-5
/** Pieces smaller than this are the rounding of places, not ground: a square millimetre. */
const LEAST_M2 = 1e-6

/**
 * A polygon (outer ring, then holes) cut along a line: the pieces that the line leaves, largest first; one piece where
 * it cuts nothing off. What of the line lies outside, in a hole, or ends within, cuts nothing. Corners stand as they
 * were; the crossings are corners of both pieces, to the bit.
 */
export function splitArea(rings: readonly Corners[], line: Corners): readonly (readonly Corners[])[] {
  const nodes: Metres[] = []
  const cells = new Map<string, number[]>()
  const node = (at: Metres): number => {
    const [cx, cy] = [Math.round(at[0] / (4 * SAME_M)), Math.round(at[1] / (4 * SAME_M))]
    for (let x = cx - 1; x <= cx + 1; x++)
      for (let y = cy - 1; y <= cy + 1; y++)
        for (const n of cells.get(`${x} ${y}`) ?? []) if (distanceM(nodes[n]!, at) <= SAME_M) return n
    const key = `${cx} ${cy}`
    cells.set(key, [...(cells.get(key) ?? []), nodes.push(at) - 1])
    return nodes.length - 1
  }
  const turned = rings.map((ring, n) => (twiceArea(ring) > 0 === (n === 0) ? ring : [...ring].reverse()))
  for (const ring of turned) for (const at of ring) node(at)

  /** Places along each segment of the line where it meets the rings or itself. */
  const cuts: [number, number][][] = line.slice(1).map((b, i) => [
    [0, node(line[i]!)],
    [1, node(b)],
  ])
  const half: Half[] = []
  for (const ring of turned)
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!
      const along: [number, number][] = [
        [0, node(a)],
        [1, node(b)],
      ]
      line.slice(1).forEach((d, k) => {
        const met = crossing(a, b, line[k]!, d)
        if (!met) return
        const n = node(met.at)
        along.push([met.s, n])
        cuts[k]!.push([met.t, n])
      })
      half.push(...chain(along))
    })
  line.slice(1).forEach((b, k) => {
    for (let m = k + 2; m < line.length - 1; m++) {
      const met = crossing(line[k]!, b, line[m]!, line[m + 1]!)
      if (!met) continue
      cuts[k]!.push([met.s, node(met.at)])
      cuts[m]!.push([met.t, node(met.at)])
    }
  })
  const edges = new Set(half.map(({ from, to }) => `${from} ${to}`))
  for (const { from, to } of cuts.flatMap(chain)) {
    const [a, b] = [nodes[from]!, nodes[to]!]
    const known = edges.has(`${from} ${to}`) || edges.has(`${to} ${from}`)
    if (known || !within(turned, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])) continue
    edges.add(`${from} ${to}`)
    half.push({ from, to, cut: true }, { from: to, to: from, cut: true })
  }
  return piecesOf(facesOf(withoutEnds(half), nodes))
}

interface Half {
  readonly from: number
  readonly to: number
  readonly cut: boolean
}

/** From place to place along a segment, each once. */
function chain(along: readonly [number, number][]): Half[] {
  const sorted = [...along].sort((a, b) => a[0] - b[0]).map(([, n]) => n)
  return sorted.slice(1).flatMap((to, i) => (to === sorted[i] ? [] : [{ from: sorted[i]!, to, cut: false }]))
}

/** Without stretches of the line that end in the midst of the ground. */
function withoutEnds(half: readonly Half[]): readonly Half[] {
  let left = half
  for (;;) {
    const degree = new Map<number, number>()
    for (const { from } of left) degree.set(from, (degree.get(from) ?? 0) + 1)
    const next = left.filter(({ from, to, cut }) => !cut || (degree.get(from)! > 1 && degree.get(to)! > 1))
    if (next.length === left.length) return left
    left = next
  }
}

/** The rings that are walked with the ground on the left: at each place the way that turns most to the left. */
function facesOf(half: readonly Half[], nodes: readonly Metres[]): Corners[] {
  const angle = ({ from, to }: Half) => Math.atan2(nodes[to]![1] - nodes[from]![1], nodes[to]![0] - nodes[from]![0])
  const leaving = new Map<number, number[]>()
  half.forEach(({ from }, h) => {
    const list = leaving.get(from)
    if (list) list.push(h)
    else leaving.set(from, [h])
  })
  const done = new Set<number>()
  const faces: Corners[] = []
  for (let first = 0; first < half.length; first++) {
    if (done.has(first)) continue
    const ring: Metres[] = []
    let h = first
    while (!done.has(h)) {
      done.add(h)
      const here = half[h]!
      ring.push(nodes[here.from]!)
      const back = angle({ from: here.to, to: here.from, cut: false })
      let best = -1
      let least = Infinity
      for (const next of leaving.get(here.to) ?? []) {
        if (done.has(next) && next !== first) continue
        // Clockwise from the way back: the least is the sharpest turn to the left.
        const turn = (((back - angle(half[next]!)) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)
        const sharp = turn < 1e-12 ? 2 * Math.PI : turn
        if (sharp >= least) continue
        least = sharp
        best = next
      }
      if (best < 0) break
      h = best
    }
    faces.push(ring)
  }
  return faces
}

/** Outer rings with the holes that lie in them. */
function piecesOf(faces: readonly Corners[]): readonly (readonly Corners[])[] {
  const outer = faces.filter((ring) => twiceArea(ring) / 2 > LEAST_M2).sort((a, b) => twiceArea(b) - twiceArea(a))
  const pieces: Corners[][] = outer.map((ring) => [ring])
  for (const hole of faces.filter((ring) => twiceArea(ring) / 2 < -LEAST_M2)) {
    const inner = insideOf(hole)
    const holder = pieces.findLast(([ring]) => within([ring!], inner))
    holder?.push(hole)
  }
  return pieces
}

/** A place within a ring: beside the middle of its longest side. */
function insideOf(ring: Corners): Metres {
  let [best, least] = [ring[0]!, ring[1]!]
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!
    if (distanceM(a, b) > distanceM(best, least)) [best, least] = [a, b]
  })
  const size = distanceM(best, least)
  const [ux, uy] = [(least[0] - best[0]) / size, (least[1] - best[1]) / size]
  const side = twiceArea(ring) > 0 ? 1 : -1
  const middle: Metres = [(best[0] + least[0]) / 2, (best[1] + least[1]) / 2]
  return [middle[0] - uy * side * SAME_M * 10, middle[1] + ux * side * SAME_M * 10]
}
