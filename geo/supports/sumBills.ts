import { labourCost } from './labourCost.ts'
import { type Materials, materialsOf, type RunOfSystem } from './materialsOf.ts'
import { runBill } from './runBill.ts'

/** What it takes to build some runs, all new, and what they cost a season. */
export interface BillOfRuns extends Materials {
  readonly costPerSeason: number
  readonly minutesPerSeason: number
  readonly puttingUpMinutes: number
}

/** Adds the bills of whole runs. */
export function sumBills(runs: readonly Omit<RunOfSystem, 'only'>[], labourPerHour: number | null): BillOfRuns {
  const sums = { costPerSeason: 0, minutesPerSeason: 0, puttingUpMinutes: 0 }
  for (const { run, recipe } of runs) {
    const bill = runBill(run, recipe)
    sums.costPerSeason += bill.partsPerSeason + labourCost(bill.minutesPerSeason, { labourPerHour })
    sums.minutesPerSeason += bill.minutesPerSeason
    sums.puttingUpMinutes += bill.minutes.puttingUp
  }
  return { ...materialsOf(runs.map(({ run, recipe }) => ({ run, recipe }))), ...sums }
}
