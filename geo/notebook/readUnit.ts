import { plainName } from './matchName.ts'

/** How people write units of mass. */
const MASSES: Readonly<Record<string, string>> = {
  kg: 'kg',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  g: 'g',
  gr: 'g',
  gram: 'g',
  grams: 'g',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
}
const ALSO: Readonly<Record<string, string>> = { bu: 'bushel', bsh: 'bushel' }

const singular = (word: string) => word.replace(/(s|x|ch|sh)es$/, '$1').replace(/([^s])s$/, '$1')

/** The unit that a word means: a unit of mass, or one of the farm's containers, plural or not. Null where it is neither. */
export function readUnit(told: string, containers: readonly string[]): string | null {
  const word = plainName(told)
  const mass = MASSES[word]
  if (mass !== undefined) return mass
  const wanted = ALSO[word] ?? word
  const exact = containers.find((unit) => unit === told)
  return (
    exact ??
    containers.find((unit) => plainName(unit) === wanted || singular(plainName(unit)) === singular(wanted)) ??
    null
  )
}
