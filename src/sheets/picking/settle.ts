import type { PickedFor } from '../../desk/door.ts'
import type { Households } from './households.ts'

/** One person (or house, or market) in the season so far: what they picked, what they had of all picks, and the difference. */
export interface Account {
  readonly name: string
  readonly pickedKg: number
  readonly hadKg: number
  /** Had less picked: above zero where they had more than they picked. */
  readonly overKg: number
}

/** Who picked against who had it. `untoldPickerKg` is of picks that tell no picker, `notSharedKg` what nobody is told to have had. */
export interface Settlement {
  readonly accounts: readonly Account[]
  readonly totalKg: number
  readonly notSharedKg: number
  readonly untoldPickerKg: number
  /** Picker by receiver: kg that one picked and the other had; what was not shared out has no line. */
  readonly between: readonly { readonly picker: string | null; readonly to: string; readonly kg: number }[]
  readonly uses: readonly { readonly use: string | null; readonly kg: number }[]
}

/**
 * Adds up who picked and who had it, so that shares can be settled; whoever belongs to a household counts as it. Picked =
 * had + not shared out, over everybody.
 */
export function settle(lines: readonly PickedFor[], households: Households = new Map()): Settlement {
  const as = (name: string | null) => (name === null ? null : (households.get(name) ?? name))
  const picked = new Map<string, number>()
  const had = new Map<string, number>()
  const between = new Map<string, { picker: string | null; to: string; kg: number }>()
  const uses = new Map<string | null, number>()
  let totalKg = 0
  let notSharedKg = 0
  let untoldPickerKg = 0
  for (const { use, kg, ...names } of lines) {
    const [picker, to] = [as(names.picker), as(names.to)]
    totalKg += kg
    if (picker === null) untoldPickerKg += kg
    else add(picked, picker, kg)
    if (to === null) {
      notSharedKg += kg
      continue
    }
    add(had, to, kg)
    add(uses, use, kg)
    const key = JSON.stringify([picker, to])
    between.set(key, { picker, to, kg: (between.get(key)?.kg ?? 0) + kg })
  }
  const accounts = [...new Set([...picked.keys(), ...had.keys()])].map((name) => {
    const [pickedKg, hadKg] = [picked.get(name) ?? 0, had.get(name) ?? 0]
    return { name, pickedKg, hadKg, overKg: hadKg - pickedKg }
  })
  return {
    accounts: accounts.sort((a, b) => b.pickedKg + b.hadKg - a.pickedKg - a.hadKg),
    totalKg,
    notSharedKg,
    untoldPickerKg,
    between: [...between.values()].sort((a, b) => b.kg - a.kg),
    uses: [...uses].map(([use, kg]) => ({ use, kg })).sort((a, b) => b.kg - a.kg),
  }
}

function add<K>(to: Map<K, number>, key: K, kg: number): void {
  to.set(key, (to.get(key) ?? 0) + kg)
}
