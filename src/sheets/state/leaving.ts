import { batch } from '@preact/signals'

const forgets: (() => void)[] = []

/** Has a module forget what it holds of the farm that stands open, once that is left for another. */
export function whenFarmLeft(forget: () => void): void {
  forgets.push(forget)
}

/** Everything that is held of the farm that stood open is let go of. */
export function leaveFarm(): void {
  batch(() => {
    for (const forget of forgets) forget()
  })
}
