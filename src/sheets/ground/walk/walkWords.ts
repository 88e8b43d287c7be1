import type { WalkedJudgement } from '../../../../geo/track/walkedShape.ts'
import { lengthFigure, showNumber, type Units } from '../../show/figures.ts'

/** What a walk can become. */
export type Becomes = 'fields' | 'beds' | 'rows' | 'structures' | 'structure line'

/** How sure a position is, in plain words. */
export function sureWords(accuracyM: number): string {
  if (accuracyM <= 5) return 'as sure as a phone gets'
  if (accuracyM <= 10) return 'usual for a phone: good for large fields'
  if (accuracyM <= 30) return 'poor: wait for a clearer sky before you walk on'
  return 'of no use: positions like this are left out'
}

/** An accuracy, told no finer than it is. */
export function accuracyFigure(accuracyM: number, units: Units): { value: string; unit: string } {
  if (units === 'us') return { value: showNumber(accuracyM / 0.3048, 0), unit: 'ft' }
  return { value: showNumber(accuracyM, accuracyM < 10 ? 1 : 0), unit: 'm' }
}

/** What the judgement means for what the walk is to become; null where there is nothing to warn of. */
export function judgementWords(becomes: Becomes, { fit }: WalkedJudgement, accuracyM: number | null): string | null {
  if (accuracyM === null)
    return 'The file does not say how sure its positions are. Those of a phone are some 3 to 10 m off.'
  if (becomes === 'beds' || becomes === 'rows') {
    if (accuracyM <= 0.5) return null
    return 'Too poor for a bed or row: it is narrower than the position is sure. Draw it over an aerial photo, or measure it with a tape.'
  }
  if (fit === 'good enough') return null
  return fit === 'rough'
    ? 'A rough outline. Where a metre matters, mend its corners over an aerial photo or with a tape.'
    : 'Too poor to be used as a boundary: the ground is too small for what the device can tell. Draw it over an aerial photo, or measure it with a tape.'
}

/** What stands in the record's note: how it was had and how sure it is. */
export function noteOf(
  made: { readonly accuracyM: number | null; readonly corners: number; readonly held: boolean },
  from: { readonly file: string | null; readonly day: string },
  units: Units,
): string {
  const how = from.file === null ? `Walked with the device on ${from.day}` : `From the track in ${from.file}`
  const corners = made.held
    ? `${made.corners} corners, positions averaged at each`
    : `${made.corners} corners, from the way walked`
  if (made.accuracyM === null) return `${how}: ${corners}. How sure its positions are is not told.`
  const { value, unit } = lengthFigure(made.accuracyM, units)
  return `${how}: ${corners}. Corners are true to about ${value} ${unit} (95 in 100, as the device estimates).`
}
