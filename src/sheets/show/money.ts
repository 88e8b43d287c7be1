import { openFarm } from '../state/farm.ts'
import { showNumber } from './figures.ts'

/** Money in the farm's currency, where it has told one. */
export function showMoney(amount: number, decimals = 2): string {
  const currency = openFarm.value?.farm.currency ?? null
  return currency === null ? showNumber(amount, decimals) : `${showNumber(amount, decimals)} ${currency}`
}

/** Minutes as hours once they are many. */
export function showMinutes(minutes: number): string {
  return minutes < 90 ? `${showNumber(minutes, 0)} min` : `${showNumber(minutes / 60, 1)} h`
}
