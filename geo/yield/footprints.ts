import { type CropMean, cropMeans, soleCrops } from './cropMeans.ts'
import { type LaidBed, type PlantingStrip, plantingStrips } from './plantingStrips.ts'
import type { Ring } from './ring.ts'
import { bedFinder, spotGround } from './spotGround.ts'
import type { YieldInput, YieldNote } from './yieldInput.ts'

/** Ground in one bed over which mass lies evenly. */
export type Footprint = {
  readonly season: number
  readonly bed: number
  readonly rings: readonly Ring[]
  /** Picked from it. */
  readonly kg: number
  /** How many picks that are, and what they were told of. */
  readonly picks: number
  readonly toldOf: 'planting' | 'bed' | 'spot'
  /** The planting whose picks they are; null for picks told only by bed or by spot. */
  readonly planting: string | null
  /** The crop it counts to; null where that is not known, so that nothing can be expected of it. */
  readonly crop: string | null
  /** Plantings of that crop in the season, of which the farm's mean is made; 0 where the crop has none. */
  readonly plantingsOfCrop: number
  /** What it would have given at the farm's mean for its crop; 0 for picks that no planting answers for. */
  readonly expectedKg: number
  /** Metres of row that its planting stands along; 0 for picks that no planting answers for. */
  readonly rowM: number
}

export type Footprints = {
  readonly footprints: readonly Footprint[]
  readonly strips: readonly PlantingStrip[]
  readonly means: ReadonlyMap<string, CropMean>
  /** Picked mass that found no ground, on a farm without beds. */
  readonly unplacedKg: number
  readonly notes: readonly YieldNote[]
}

/**
 * Where the season's mass lies and what was expected of that ground; of some crops only where `crops` names them, which
 * leaves out picks whose crop is not known.
 */
export function footprints(
  input: YieldInput,
  beds: readonly LaidBed[],
  crops: ReadonlySet<string> | null = null,
): Footprints {
  const { season } = input
  const { strips, notes } = plantingStrips(input, beds)
  const sole = soleCrops(strips, beds.length)
  const pickedOf = new Map(input.picks.plantings.map((sum) => [sum.planting, sum]))
  const loose = loosePicks(input, beds, sole)
  const counted = loose.placed.flatMap(({ crop, kg }) => (crop === null ? [] : [{ crop, kg }]))
  const told = strips.map(({ planting }) => ({ crop: planting.crop, kg: pickedOf.get(planting.id)?.kg ?? 0 }))
  const means = cropMeans(strips, [...told, ...counted])
  const plantingsOf = (crop: string | null): number => (crop === null ? 0 : (means.get(crop)?.plantings ?? 0))
  const planted = strips.map(({ planting, bed, rings, areaM2, fromM, toM }): Footprint => {
    const expectedKg = (means.get(planting.crop)?.kgPerM2 ?? 0) * areaM2
    const { id, crop } = planting
    const { kg, picks } = pickedOf.get(id) ?? { kg: 0, picks: 0 }
    return {
      season,
      bed,
      rings,
      kg,
      picks,
      toldOf: 'planting',
      planting: id,
      crop,
      plantingsOfCrop: plantingsOf(crop),
      expectedKg,
      rowM: toM - fromM,
    }
  })
  const all = [
    ...planted,
    ...loose.placed.map((spot) => ({ ...spot, season, plantingsOfCrop: plantingsOf(spot.crop), rowM: 0 })),
  ]
  const asked = (crop: string | null): boolean => crops === null || (crop !== null && crops.has(crop))
  return {
    footprints: all.filter((f) => asked(f.crop) && (f.kg > 0 || f.expectedKg > 0)),
    strips: strips.filter(({ planting }) => asked(planting.crop)),
    means: new Map([...means].filter(([crop]) => asked(crop))),
    unplacedKg: crops === null ? loose.unplacedKg : 0,
    notes: [...notes, ...loose.notes],
  }
}

/** Ground of picks that no planting answers for, before its season is told. */
type LooseGround = Omit<Footprint, 'season' | 'plantingsOfCrop' | 'rowM'>

/** Picks told by bed or by spot: they count to the bed's crop where it has but one. */
function loosePicks(input: YieldInput, beds: readonly LaidBed[], sole: readonly (string | null)[]) {
  const placed: LooseGround[] = []
  const bedAt = new Map(beds.map((bed, k) => [bed.id, k]))
  for (const { bed: id, kg, picks } of input.picks.beds) {
    const bed = bedAt.get(id)
    if (bed === undefined) throw new Error(`picks of a bed that is not there: ${id}`)
    const { rings } = beds[bed]!
    placed.push({ bed, rings, kg, picks, toldOf: 'bed', planting: null, crop: sole[bed]!, expectedKg: 0 })
  }
  const finder = bedFinder(beds)
  let unplacedKg = 0
  let moved = 0
  for (const { x, y, kg, picks } of input.picks.spots) {
    const ground = spotGround(finder, x, y)
    const areaM2 = ground.parts.reduce((sum, part) => sum + part.areaM2, 0)
    if (ground.moved) moved += 1
    if (ground.parts.length === 0) unplacedKg += kg
    for (const { bed, rings, areaM2: own } of ground.parts) {
      const part = { kg: kg * (own / areaM2), picks, toldOf: 'spot' } as const
      placed.push({ bed, rings, ...part, planting: null, crop: sole[bed]!, expectedKg: 0 })
    }
  }
  return { placed, unplacedKg, notes: looseNotes(placed, beds, moved, unplacedKg) }
}

function looseNotes(
  placed: readonly LooseGround[],
  beds: readonly LaidBed[],
  moved: number,
  unplacedKg: number,
): YieldNote[] {
  const notes: YieldNote[] = []
  const unknown = new Set(placed.flatMap(({ bed, crop }) => (crop === null ? [beds[bed]!.id] : [])))
  if (unknown.size > 0) {
    notes.push({
      kind: 'picks-of-unknown-crop',
      ids: [...unknown],
      detail:
        'Picks told only by bed or by spot, in beds with no planting or with several crops: they count as mass, ' +
        'but nothing can be expected of them, so the yield index leaves them out.',
    })
  }
  if (moved > 0) {
    const detail = `${moved} picked ${moved === 1 ? 'spot lies' : 'spots lie'} outside every bed and ${moved === 1 ? 'counts' : 'count'} to the nearest ground of the nearest bed.`
    notes.push({ kind: 'spots-moved', ids: [], detail })
  }
  if (unplacedKg > 0) {
    const detail = 'The farm has no beds, so picks told by spot have no ground to lie on.'
    notes.push({ kind: 'spots-without-bed', ids: [], detail })
  }
  return notes
}
