import { showDay } from '../show/dates.ts'
import { lengthFigure, showNumber, told, type Units, wholeLengthFigure } from '../show/figures.ts'
import type { YieldedZone } from '../state/door.ts'

/** What lies near a low-yield zone, in words: the nearest canopy, the field's edge, supports along it, dressings. */
export function liesNear(
  { tree, fieldEdgeM, supports, dressings }: Pick<YieldedZone, 'tree' | 'fieldEdgeM' | 'supports' | 'dressings'>,
  bedNames: ReadonlyMap<string, string>,
  units: Units,
): readonly string[] {
  const words: string[] = []
  const long = (lengthM: number) => told(lengthFigure(lengthM, units))
  if (tree) {
    const name = tree.name === null || tree.name === tree.species ? tree.species : `${tree.species}, ${tree.name}`
    const where = tree.canopyM <= 0 ? 'its canopy is over the zone' : `its canopy ends ${long(tree.canopyM)} away`
    words.push(`${name}: ${where}, its trunk stands ${long(tree.trunkM)} away`)
  }
  words.push(`the field’s edge: ${long(fieldEdgeM)} away`)
  for (const { name, lengthM } of supports) words.push(`${name}: ${told(wholeLengthFigure(lengthM, units))} along it`)
  if (supports.length === 0) words.push('no support stood along it')
  const byKind = new Map<string, string[]>()
  for (const { bed, on, material, kgPerM2 } of dressings) {
    const amount = kgPerM2 === null ? '' : `, ${showNumber(kgPerM2, 1)} kg/m²`
    const what = `${material}${amount}, ${showDay(on)}`
    byKind.set(what, [...(byKind.get(what) ?? []), bedNames.get(bed) ?? bed])
  }
  for (const [what, beds] of byKind) words.push(`${what}: ${beds.join(', ')}`)
  return words
}
