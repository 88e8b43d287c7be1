import type { Warning } from '../../desk/door.ts'
import { showDay } from '../show/dates.ts'
import { lengthFigure, showCount, told, type Units } from '../show/figures.ts'
import { spacingText, spacingUnit } from './draft.ts'

/** A warning in words: what, why with its figures, and by which rule. */
export interface WarningWords {
  readonly head: string
  readonly why: string
  readonly source: string
}

/** What each kind of warning is called, and the order in which they are listed. */
export const WARNING_HEADS: Readonly<Record<Warning['kind'], string>> = {
  claimed: 'One stretch claimed twice',
  'family back': 'Family back too soon',
  walnut: 'Within a walnut’s reach',
  manure: 'Raw manure too near the harvest',
  dense: 'Too dense',
  unheld: 'Climbs without a support',
}

const SURE = {
  listed: 'The crop is on the lists.',
  inferred: 'Its class is inferred from its kin.',
  'not listed': 'It is on no list found.',
} as const

export function warningWords(warning: Warning, units: Units): WarningWords {
  return { head: WARNING_HEADS[warning.kind], why: whyOf(warning, units), source: warning.source }
}

function whyOf(warning: Warning, units: Units): string {
  const length = (m: number) => told(lengthFigure(m, units))
  const span = ([from, to]: readonly [number, number]) => `${length(from)} to ${length(to)}`
  switch (warning.kind) {
    case 'claimed': {
      const { other, shared, from, until, wholeWidth } = warning
      const when =
        until === null
          ? `from ${showDay(from)} on, with no day of clearing told`
          : `from ${showDay(from)} until ${showDay(until)}`
      const wide = wholeWidth ? ' One of the two was told by its bed alone, and takes its whole width.' : ''
      return `${nameOf(other)} stands at ${span(shared)} too, ${when}.${wide}`
    }
    case 'family back': {
      const { family, other, stoodInSeason, season, returnYears, shared } = warning
      const apart = season - stoodInSeason
      const gap = apart === 0 ? 'in the same season' : apart === 1 ? 'a year before' : `${apart} years before`
      return `${family} stood at ${span(shared)} in ${stoodInSeason}, ${gap}: ${nameOf(other)}. ${showCount(returnYears)} years are asked for.`
    }
    case 'walnut': {
      const { trunkM, reachM, treeName, from, until, assumed, sure } = warning
      const about = assumed ? ' (partly assumed)' : ''
      return `${length(trunkM)} from the trunk of ${treeName}, within reach from ${showDay(from)}; its roots may reach ${length(reachM)}${about} on ${showDay(until)}. ${sure === null ? '' : SURE[sure]}`.trim()
    }
    case 'dense': {
      const { plants, most, lengthM, usualM } = warning
      return `${showCount(plants)} plants on ${length(lengthM)}: ${showCount(most)} stand there at the closest usual spacing, ${spacingText(usualM, units)} ${spacingUnit(units)}.`
    }
    case 'unheld': {
      const { unheldM, lengthM, on } = warning
      return `${length(unheldM)} of its ${length(lengthM)} run along no support on ${showDay(on)}.`
    }
    case 'manure': {
      const { material, dressedOn, days, notBefore, harvest, touchesSoil } = warning
      const why =
        touchesSoil === null
          ? 'whether it touches soil is not told'
          : touchesSoil
            ? 'it touches soil'
            : 'it hangs clear of soil'
      return `${material} on ${showDay(dressedOn)}: not to be harvested before ${showDay(notBefore)}, ${days} days (${why}). ${harvestTold(harvest)}`
    }
  }
}

function harvestTold(harvest: Extract<Warning, { kind: 'manure' }>['harvest']): string {
  if (harvest === null) return 'Its first harvest is not known.'
  const day = showDay(harvest.on)
  switch (harvest.how) {
    case 'picked':
      return `It was picked on ${day}.`
    case 'expected':
      return `Its first pick may be expected on ${day}.`
    case 'going on':
      return `It stands on ${day} and is still to be picked.`
  }
}

const nameOf = ({ crop, variety }: { readonly crop: string; readonly variety: string }) => `${crop}, ${variety}`
