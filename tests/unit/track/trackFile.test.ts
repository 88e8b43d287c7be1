import type { Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import { makeDemoRecords } from '../../../fixtures/demo/makeDemo.ts'
import type { FarmContent } from '../../../geo/exchange/archive.ts'
import { writeGpx } from '../../../geo/exchange/gpx/writeGpx.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import type { LonLat, Metres } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import type { Fix } from '../../../geo/track/fix.ts'
import { leftOut, readWalk, takenWhole } from '../../../geo/track/readWalk.ts'
import { usualToleranceM, walkedShape } from '../../../geo/track/walkedShape.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import type { Asked } from '../../../src/desk/answer/answers.ts'
import { readTracks } from '../../../src/desk/answer/readTracks.ts'
import type { TracksRead } from '../../../src/desk/door.ts'
import { areaM2 } from '../../../src/draw/measureShape.ts'
import { makeWalk } from './walks.ts'

const ORIGIN: LonLat = [15.64, 46.34]
const plane = planeAbout(ORIGIN)
// 100 m by 40 m: 4,000 m², by hand.
const OBLONG: Metres[] = [
  [0, 0],
  [100, 0],
  [100, 40],
  [0, 40],
]

const tracksOf = async (bytes: Uint8Array) => {
  // The file is all that this answer looks at.
  const asked = { signal: new AbortController().signal } as Asked
  return (await readTracks({ name: 'walk.gpx', bytes }, asked)) as TracksRead
}
const gpx = (inside: string) =>
  new TextEncoder().encode(
    `<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">${inside}</gpx>`,
  )
const pointsAt = (element: string, corners: readonly Metres[], told: (n: number) => string = () => '') =>
  corners
    .map((at, n) => {
      const [lon, lat] = plane.toLonLat(at)
      return `<${element} lat="${lat}" lon="${lon}">${told(n)}</${element}>`
    })
    .join('')
const walkOf = (fixes: readonly Fix[], about: Plane = plane) =>
  readWalk(
    fixes.map((fix) => ({ does: 'fix' as const, ...fix })),
    about.toMetres,
  )
/** The outline as the panel has it before anything is changed. */
const outlineOf = (walk: ReturnType<typeof walkOf>) => walkedShape(walk, 'way', true, usualToleranceM(walk)).corners
const area = (corners: readonly Metres[]) => areaM2({ type: 'Polygon', parts: [corners] })

describe('a track of few positions', () => {
  const closed = [...OBLONG, OBLONG[0]!]
  const time = (n: number) => `<time>2026-05-01T08:0${n}:00Z</time>`
  it.each([
    ['nothing', () => ''],
    ['times', time],
    ['dilution', () => '<hdop>0.9</hdop>'],
    ['both', (n: number) => `${time(n)}<hdop>0.9</hdop>`],
  ])('keeps its corners and its area, telling %s', async (_, told) => {
    const { tracks } = await tracksOf(gpx(`<trk><trkseg>${pointsAt('trkpt', closed, told)}</trkseg></trk>`))
    const walk = walkOf(tracks[0]!.fixes)
    expect(leftOut(walk)).toBe(0)
    const corners = outlineOf(walk)
    expect(corners).toHaveLength(4)
    expect(area(corners)).toBeCloseTo(4000, 4)
  })
  it('keeps them too as a route, whatever it tells, and where its last corner lies near its first', async () => {
    const strip: Metres[] = [
      [0, 0],
      [30, 0],
      [30, 1.2],
      [0, 1.2],
    ]
    const every = (n: number) => `<time>2026-05-01T08:00:0${n}Z</time><hdop>9</hdop>`
    const { tracks } = await tracksOf(gpx(`<rte>${pointsAt('rtept', strip, every)}</rte>`))
    const walk = walkOf(tracks[0]!.fixes)
    expect(leftOut(walk)).toBe(0)
    expect(area(outlineOf(walk))).toBeCloseTo(36, 4)
  })
})

it('outlines come back from the GPX that is written of a farm, with their corners and areas', async () => {
  const { content } = readArchive(makeDemoRecords())
  const about = planeAbout(content!.origin!)
  for (const kind of ['fields', 'beds']) {
    const records = content!.records.get(kind)!
    const only: FarmContent = { ...content!, records: new Map([[kind, records]]) }
    const { tracks } = await tracksOf(writeGpx(only).bytes)
    const rings = records.flatMap(({ geom }) => (geom as Polygon).coordinates)
    expect(tracks).toHaveLength(rings.length)
    rings.forEach((ring, n) => {
      const walk = walkOf(tracks[n]!.fixes, about)
      expect(leftOut(walk)).toBe(0)
      const corners = outlineOf(walk)
      const given = ring.slice(0, -1).map(([lon, lat]) => about.toMetres([lon!, lat!]))
      expect(corners).toHaveLength(given.length)
      expect(Math.abs(area(corners) - area(given))).toBeLessThan(1e-3)
    })
  }
})

describe('a walked track', () => {
  const steps = makeWalk(
    { corners: OBLONG, accuracyM: 4, drift: 0.5, holdFixes: 0, outlierIn: 15, holds: false, stepM: 1.4 },
    seededRandom(5),
    plane.toLonLat,
  )
  const fixes = steps.flatMap(({ event }) => (event.does === 'fix' ? [event] : []))
  const point = ({ lon, lat, atMs }: Fix, more: string) =>
    `<trkpt lat="${lat}" lon="${lon}"><time>${new Date(atMs!).toISOString()}</time>${more}</trkpt>`
  const spikes = steps.filter(({ outlier }) => outlier).length

  // 40 to 80 m off, made so; the scatter's own tail may cost a position or two in a hundred more.
  it.each([
    ['and dilution', '<hdop>0.8</hdop>'],
    ['alone', ''],
  ])('loses its spikes where it tells times %s, unless all are taken', async (_, more) => {
    const { tracks } = await tracksOf(
      gpx(`<trk><trkseg>${fixes.map((fix) => point(fix, more)).join('')}</trkseg></trk>`),
    )
    const walk = walkOf(tracks[0]!.fixes)
    const [part] = walk.parts
    if (part?.is !== 'walked') throw new Error(part?.is)
    const found = steps.filter(({ outlier }, n) => outlier && part.out[n]).length
    expect(spikes).toBeGreaterThan(8)
    expect(found).toBe(spikes)
    expect(leftOut(walk) - found).toBeLessThan(0.02 * fixes.length)
    expect(Math.abs(area(outlineOf(walk)) - 4000)).toBeLessThan(400)
    const whole = takenWhole(walk)
    expect(leftOut(whole)).toBe(0)
    expect(walkedShape(whole, 'way', false, 0).corners).toHaveLength(fixes.length)
  })
})
