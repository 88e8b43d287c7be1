import type { NearEffect } from './effects.ts'
import type { ZoneFactor } from './zoneNear.ts'

/**
 * What an effect tells, in plain words that claim no cause: `long` writes metres in the person's units. The index is
 * told in hundredths of par.
 */
export function nearWords(effect: NearEffect, long: (metres: number) => string): string {
  const [here, there] = grounds(effect, long)
  if (effect.effect === null) {
    return `Too little to tell of ${here}: ${effect.with} plots with it and ${effect.without} without; it takes 5 of each.`
  }
  const points = (index: number): string => String(Math.round(Math.abs(index) * 100))
  const sides = effect.effect < 0 ? 'less' : 'more'
  const signed = (index: number): string => `${index < 0 ? '−' : '+'}${points(index)}`
  const range = `between ${signed(effect.low!)} and ${signed(effect.high!)}`
  const held = `${points(effect.effect)} % of par ${sides} than ${there} (${range} in 95 of 100 such farms)`
  if (effect.tells === 'no link that is sure') return `No link that is sure: ${here} gave ${held}.`
  return `Yield goes with it: ${here} gave ${held}.`
}

function grounds({ kind, name, reachM }: Pick<NearEffect, 'kind' | 'name' | 'reachM'>, long: (m: number) => string) {
  const away = reachM === null ? '' : `ground ${long(reachM)} and more away`
  switch (kind) {
    case 'walnut':
      return ['ground under the canopy of a tree that gives off juglone', `${away} from any`]
    case 'canopy':
      return ['ground under another tree’s canopy', `${away} from any`]
    case 'shade':
      return ['ground that loses all of its direct sun', 'ground that loses none']
    case 'field edge':
      return ['ground at the field’s edge', away]
    case 'fence':
      return ['ground at a fence', away]
    case 'support':
      return [`plantings held by ${name}`, 'other plantings of crops that climb or are held']
    case 'dressing':
      return [`beds that had ${name}`, 'beds that had none']
    case 'family before':
      return ['plantings after the same family', 'plantings after another']
    case 'seen':
      return [`ground where ${name} was seen`, away]
  }
}

/** How much of a factor there is in a zone, against elsewhere, in plain words: `long` writes metres in the person's units. */
export function zoneFactorWords(factor: ZoneFactor, long: (metres: number) => string): string {
  const share = (value: number): string => `${Math.round(value * 100)} %`
  const elsewhere = factor.elsewhere === null ? '' : `, ${share(factor.elsewhere)} elsewhere`
  return `${measured(factor, long)}: ${share(factor.here)} here${elsewhere}`
}

function measured({ kind, name, reachM }: ZoneFactor, long: (metres: number) => string): string {
  const from = reachM === null ? '' : `, 0 from ${long(reachM)} on`
  switch (kind) {
    case 'walnut':
      return `nearness of trees that give off juglone (100 % beneath the canopy${from})`
    case 'canopy':
      return `nearness of other trees (100 % beneath the canopy${from})`
    case 'shade':
      return 'hours of direct sun lost to trees and supports'
    case 'field edge':
      return `nearness of the field’s edge (100 % at it${from})`
    case 'fence':
      return `nearness of a fence (100 % at it${from})`
    case 'support':
      return `held by ${name}, of plantings that climb or are held`
    case 'dressing':
      return `in beds that had ${name}`
    case 'family before':
      return 'after the same family, of plantings where that is known'
    case 'seen':
      return `nearness of where ${name} was seen (100 % at it${from})`
  }
}
