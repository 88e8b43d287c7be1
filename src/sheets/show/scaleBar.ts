import { METRES_PER_FOOT, showNumber, type Units } from './figures.ts'

/** A bar of round length that is true at the map's middle. */
export interface ScaleBar {
  readonly widthPx: number
  readonly half: string
  readonly whole: string
}

/** The longest of 1, 2 or 5 times a power of ten that is at most `mostPx` wide. */
export function scaleBar(metresPerPixel: number, mostPx: number, units: Units): ScaleBar {
  const metresPerUnit = units === 'us' ? METRES_PER_FOOT : 1
  const most = (mostPx * metresPerPixel) / metresPerUnit
  const power = 10 ** Math.floor(Math.log10(most))
  const round = [5, 2, 1].find((step) => step * power <= most)! * power
  const decimals = (value: number) => Math.max(0, -Math.floor(Math.log10(value)))
  const thousands = units === 'metric' && round >= 2000
  const shown = (value: number) => {
    const told = thousands ? value / 1000 : value
    return showNumber(told, Number.isInteger(told) ? 0 : decimals(told % 1 === 0 ? told : told / 5))
  }
  const unit = units === 'us' ? 'ft' : thousands ? 'km' : 'm'
  return {
    widthPx: (round * metresPerUnit) / metresPerPixel,
    half: shown(round / 2),
    whole: `${shown(round)} ${unit}`,
  }
}
