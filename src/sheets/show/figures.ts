/** How quantities are told: metric, or US customary. What is kept and reckoned is SI always. */
export type Units = 'metric' | 'us'

/** A quantity as it is shown: its number in the device's locale, and its unit. */
export interface Figure {
  readonly value: string
  readonly unit: string
}

/** International foot and avoirdupois pound, exact (NIST Handbook 44, appendix C). */
export const METRES_PER_FOOT = 0.3048
export const KG_PER_POUND = 0.45359237
export const M2_PER_ACRE = 4046.8564224
const M2_PER_FOOT2 = METRES_PER_FOOT ** 2

/** By decimals: one takes longer to make than a hundred numbers to write. */
const formats = new Map<number, Intl.NumberFormat>()

/** A number with so many decimals in the device's locale; minus is the true sign. */
export function showNumber(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals))
  let format = formats.get(decimals)
  if (!format) {
    format = new Intl.NumberFormat(undefined, { minimumFractionDigits: decimals, maximumFractionDigits: decimals })
    formats.set(decimals, format)
  }
  return format.format(rounded === 0 ? 0 : rounded).replace('-', '−')
}

export const showCount = (count: number): string => showNumber(count, 0)

export function lengthFigure(lengthM: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber(lengthM / METRES_PER_FOOT, 1), unit: 'ft' }
    : { value: showNumber(lengthM, lengthM === 0 ? 0 : lengthM < 100 ? 2 : 1), unit: 'm' }
}

/** How sure a position is: in whole metres or feet, since it claims no more. */
export function accuracyFigure(lengthM: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber(lengthM / METRES_PER_FOOT, 0), unit: 'ft' }
    : { value: showNumber(lengthM, 0), unit: 'm' }
}

/** Long sums of length, without decimals. */
export function wholeLengthFigure(lengthM: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber(lengthM / METRES_PER_FOOT, 0), unit: 'ft' }
    : { value: showNumber(lengthM, 0), unit: 'm' }
}

/** Ground of a bed or so: m² or ft². */
export function areaFigure(areaM2: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber(areaM2 / M2_PER_FOOT2, 0), unit: 'ft²' }
    : { value: showNumber(areaM2, areaM2 > 0 && areaM2 < 1000 ? 1 : 0), unit: 'm²' }
}

/** Ground of a field or farm: m² up to a hectare, or ft² up to a quarter acre; hectares or acres above. */
export function landFigure(areaM2: number, units: Units): Figure {
  if (units === 'us')
    return areaM2 < M2_PER_ACRE / 4
      ? { value: showNumber(areaM2 / M2_PER_FOOT2, 0), unit: 'ft²' }
      : { value: showNumber(areaM2 / M2_PER_ACRE, 2), unit: 'acres' }
  return areaM2 < 10_000
    ? { value: showNumber(areaM2, 0), unit: 'm²' }
    : { value: showNumber(areaM2 / 10_000, 2), unit: 'ha' }
}

export function massFigure(kg: number, units: Units): Figure {
  const value = units === 'us' ? kg / KG_PER_POUND : kg
  return { value: showNumber(value, Math.abs(value) < 100 ? 1 : 0), unit: units === 'us' ? 'lb' : 'kg' }
}

/** Mass over ground. */
export function densityFigure(kgPerM2: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber((kgPerM2 / KG_PER_POUND) * M2_PER_FOOT2, 2), unit: 'lb/ft²' }
    : { value: showNumber(kgPerM2, 2), unit: 'kg/m²' }
}

/** Mass over row length. */
export function alongFigure(kgPerM: number, units: Units): Figure {
  return units === 'us'
    ? { value: showNumber((kgPerM / KG_PER_POUND) * METRES_PER_FOOT, 2), unit: 'lb/ft' }
    : { value: showNumber(kgPerM, 2), unit: 'kg/m' }
}

export const told = ({ value, unit }: Figure): string => `${value} ${unit}`

/** A share of one, as per cent. */
export function showShare(share: number): string {
  return share.toLocaleString(undefined, { style: 'percent', maximumFractionDigits: share < 0.1 ? 1 : 0 })
}
