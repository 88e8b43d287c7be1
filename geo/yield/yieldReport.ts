import { longAxis } from '../plane/longAxis.ts'
import { type BedYield, bedYields } from './bedYields.ts'
import type { ChanceRecords } from './coldestDealt.ts'
import type { CropMean } from './cropMeans.ts'
import { type Footprint, type Footprints, footprints } from './footprints.ts'
import { type HotAndCold, hotAndCold } from './hotAndCold.ts'
import { type LaidPieces, layPieces } from './pieces.ts'
import type { LaidBed, PlantingStrip } from './plantingStrips.ts'
import { type Plot, plotsOf } from './plots/plots.ts'
import { cornersOf, ringsAreaM2 } from './ring.ts'
import { smoothMass } from './smoothMass.ts'
import { type Masses, type PickGrounds, spreadMass } from './spreadMass.ts'
import { type Stretch, stretches } from './stretches.ts'
import type { YieldBed, YieldInput, YieldNote } from './yieldInput.ts'
import { type LowYieldZone, lowYieldZones } from './zones.ts'

/** How the surface is laid and the statistics asked. */
export type YieldSettings = {
  /** Side of a grid cell, in metres. */
  readonly cellM: number
  /** Standard deviation of the smoothing, in metres; 0 for none. */
  readonly smoothM: number
  /** About how long a stretch of bed is, in metres. */
  readonly stretchM: number
  /** Stretches whose centres lie within this of each other are neighbours, in metres. */
  readonly bandM: number
  /** False discovery rate at which a stretch is called cold. */
  readonly alpha: number
}

/**
 * Yield of a season, or of several together, in the farm's plane: kg, m², metres. Of several, mass is the sum over the
 * seasons, mass on its area a season's mean, and the index all that was picked over all that was expected, each planting
 * held against its own season.
 */
export type YieldReport = {
  /** The season, of several the last. */
  readonly season: number
  /** Oldest first. */
  readonly seasons: readonly number[]
  readonly settings: YieldSettings
  readonly totalKg: number
  /** Growing area of all beds. */
  readonly areaM2: number
  /** Total a season over the area of the beds that were picked; null where none was. */
  readonly kgPerM2: number | null
  readonly crops: readonly CropMean[]
  readonly beds: readonly BedYield[]
  /** Where the mass lies, season by season. */
  readonly footprints: readonly Footprint[]
  /** Ground of the plantings that count to each season. */
  readonly strips: readonly (readonly PlantingStrip[])[]
  /** The beds' ground, in the order of `beds`. */
  readonly ground: readonly LaidBed[]
  readonly pieces: LaidPieces
  /** Mass on each piece, as it lies on the footprints, and what it rests on. */
  readonly masses: Masses & PickGrounds
  /** Mass on each piece, smoothed. */
  readonly smooth: Masses
  readonly stretches: readonly Stretch[]
  readonly hotAndCold: HotAndCold
  readonly zones: readonly LowYieldZone[]
  readonly notes: readonly YieldNote[]
}

/** A report without its surface. */
export type YieldFigures = Omit<YieldReport, 'pieces' | 'masses' | 'smooth'>

/** More pieces than this would fill the memory of a phone. */
const MOST_PIECES = 4_000_000

/** A season's yield: see `seasonsReport`. */
export function yieldReport(input: YieldInput, settings: YieldSettings): YieldReport {
  return seasonsReport([input], settings, null)
}

/**
 * From picks to mass, density surface, index, hot and cold, and zones, of seasons (oldest first) with the same beds; of
 * all crops, or of those named. Throws a RangeError for a cell that can't be used.
 */
export function seasonsReport(
  inputs: readonly YieldInput[],
  settings: YieldSettings,
  crops: ReadonlySet<string> | null,
): YieldReport {
  const figures = seasonsFigures(inputs, settings, crops)
  const { areaM2, ground } = figures
  if (!(settings.cellM > 0) || areaM2 / settings.cellM ** 2 > MOST_PIECES) {
    throw new RangeError(`a grid cell of ${settings.cellM} m can't be used on ${areaM2} m² of beds`)
  }
  const pieces = layPieces(ground, settings.cellM)
  const masses = spreadMass(pieces, figures.footprints, settings.cellM)
  return resmoothed({ ...figures, pieces, masses, smooth: masses }, settings.smoothM)
}

/** A report with its mass smoothed anew; nothing else is reckoned. */
export function resmoothed(report: YieldReport, smoothM: number): YieldReport {
  const { masses, pieces, settings } = report
  const smooth = smoothM > 0 ? smoothMass(pieces.pieces, masses, smoothM, settings.cellM) : masses
  return { ...report, settings: { ...settings, smoothM }, smooth }
}

/** The same without the surface: mass, index, hot and cold, zones. */
export function seasonsFigures(
  inputs: readonly YieldInput[],
  settings: YieldSettings,
  crops: ReadonlySet<string> | null,
): YieldFigures {
  const beds = inputs[0]!.beds.map(laidBed)
  const areaM2 = beds.reduce((sum, bed) => sum + bed.areaM2, 0)
  const grounds = inputs.map((input) => footprints(input, beds, crops))
  const lie = grounds.flatMap((ground) => ground.footprints)
  const strips = grounds.map((ground) => ground.strips)
  const cut = stretches(beds, lie, settings.stretchM)
  const plots = plotsOf({ footprints: lie, ground: beds, strips })
  const told = hotAndCold(cut, beds.length, settings.bandM, chanceRecords(plots, lie.length))
  const ofBeds = bedYields(beds, lie, strips, told.beds)
  const picked = ofBeds.filter((bed) => bed.kg > 0)
  const unplacedKg = grounds.reduce((sum, ground) => sum + ground.unplacedKg, 0)
  const totalKg = picked.reduce((sum, bed) => sum + bed.kg, unplacedKg)
  const pickedM2 = picked.reduce((sum, bed) => sum + bed.areaM2, 0)
  return {
    season: inputs.at(-1)!.season,
    seasons: inputs.map(({ season }) => season),
    settings,
    totalKg,
    areaM2,
    kgPerM2: pickedM2 > 0 ? totalKg / pickedM2 / inputs.length : null,
    crops: grounds.flatMap((ground) => [...ground.means.values()]),
    beds: ofBeds,
    footprints: lie,
    strips,
    ground: beds,
    stretches: cut,
    hotAndCold: told,
    zones: lowYieldZones(cut, told.stretches, settings.alpha, told.coldestByChance ?? Number.NEGATIVE_INFINITY),
    notes: [
      ...unweighedNote(inputs.reduce((sum, { picks }) => sum + picks.unweighed, 0)),
      ...mergedNotes(grounds.flatMap((ground) => ground.notes)),
      ...cautions(grounds, lie, told),
    ],
  }
}

/** What chance deals out: the index of each plot, and the plot of each footprint (−1 where it has none). */
function chanceRecords(plots: readonly Plot[], footprintCount: number): ChanceRecords {
  const plotOf = new Int32Array(footprintCount).fill(-1)
  plots.forEach(({ footprints }, p) => {
    for (const f of footprints) plotOf[f] = p
  })
  return { indexes: plots.map(({ kg, expectedKg }) => kg / expectedKg), plotOf }
}

function laidBed({ id, rings }: YieldBed): LaidBed {
  const areaM2 = ringsAreaM2(rings)
  const axis = longAxis(cornersOf(rings[0]!))
  if (axis === null) throw new Error(`bed ${id} has no ground`)
  return { id, rings, areaM2, widthM: areaM2 / axis.lengthM, axis }
}

function unweighedNote(count: number): YieldNote[] {
  if (count === 0) return []
  const told = `${count} ${count === 1 ? 'pick is' : 'picks are'} left out: nothing says what their unit weighs.`
  return [{ kind: 'picks-unweighed', ids: [], detail: told }]
}

/** The same told of several seasons is told once, of all the records; what counts its records is told season by season. */
function mergedNotes(notes: readonly YieldNote[]): YieldNote[] {
  const byDetail = new Map<string, YieldNote>()
  for (const note of notes) {
    const before = byDetail.get(note.detail)
    const ids = before ? [...new Set([...before.ids, ...note.ids])] : note.ids
    byDetail.set(note.detail, { ...note, ids })
  }
  return [...byDetail.values()]
}

function cautions(grounds: readonly Footprints[], ground: readonly Footprint[], told: HotAndCold): YieldNote[] {
  const notes: YieldNote[] = []
  const alone = grounds.flatMap(({ means }) => [...means.values()].filter((mean) => mean.plantings === 1))
  const once = [...new Set(alone.map((mean) => mean.crop))]
  if (once.length > 0) {
    notes.push({
      kind: 'crops-planted-once',
      ids: once,
      detail:
        'The farm planted these crops once in a season, so there is nothing to hold them against: they are left out of hot and cold.',
    })
  }
  if (told.tooLittle === null) {
    const records = ground.filter((f) => f.kg > 0).length
    notes.push({
      kind: 'spread-evenly',
      ids: [],
      detail: `Hot and cold rest on ${records} ${records === 1 ? 'record' : 'records'} of ground picked, each spread evenly over its strip, so stretches of one planting are not told apart: take p and q as a guide.`,
    })
  }
  return notes
}
