import { computed, signal } from '@preact/signals'
import type { SitingPlanKept } from '../../../geo/model/sitingPlans.ts'
import type { RowAt } from '../../../geo/siting/planFile.ts'
import type { ClimbedFamily, DeskFault } from '../../desk/door.ts'
import { chooseInWorker } from '../../desk/siting/chooseInWorker.ts'
import type { Progress, Reason, SitingAnswer, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { dayOf } from '../show/days.ts'
import { firstGuess, type NeedDraft, planOf, type RowWish, usualWeights, wished } from '../siting/needDraft.ts'
import { assumed } from './assumed.ts'
import { ask } from './door.ts'
import { openFarm, units } from './farm.ts'
import { runsAreWanted } from './freshRuns.ts'
import { whenFarmLeft } from './leaving.ts'
import { newId } from './newId.ts'
import { runs } from './shown.ts'
import { doEdits } from './steps.ts'
import { systems } from './systems.ts'
import { season } from './where.ts'

/** The need as it is typed, kept on this device by farm. */
export const need = signal<NeedDraft | null>(null)
export const needFaults = signal<Readonly<Record<string, string>>>({})
export const climbed = signal<readonly ClimbedFamily[] | null>(null)

export const answer = signal<SitingAnswer | null>(null)
/** Which plan is looked at: the best, or one of the others. */
export const lookedAt = signal(0)
export const choosing = signal<Progress | null>(null)
export const choosingFault = signal<DeskFault | null>(null)
/** True while the need differs from what the answer was chosen for. */
export const needChanged = signal(false)
/** Plans kept in the farm, the latest first: as the farm tells them, after each step anew. */
export const keptPlans = signal<readonly SitingPlanKept[]>([])

export const plans = computed<readonly SitingPlan[]>(() =>
  answer.value && answer.value.status !== 'infeasible' ? [answer.value, ...answer.value.others] : [],
)
export const planLookedAt = computed<SitingPlan | null>(() => plans.value[lookedAt.value] ?? null)

/** Years of the plan looked at, and the one that the map and the year's materials show: its first until another is asked for. */
export const planYears = computed<readonly number[]>(() =>
  Object.keys(planLookedAt.value?.cost.by_year ?? {}).map(Number),
)
export const yearAsked = signal<number | null>(null)
export const planYear = computed<number | null>(() => {
  const [years, asked] = [planYears.value, yearAsked.value]
  return asked !== null && years.includes(asked) ? asked : (years[0] ?? null)
})

/** Why each place was taken or left in the plan looked at. */
export const reasonsLookedAt = computed<readonly Reason[]>(() => {
  const [found, n] = [answer.value, lookedAt.value]
  if (!found) return []
  return n === 0 ? found.reasons : (found.others[n - 1]?.reasons ?? [])
})

const GAP = 0.01
const SECONDS = 20
const OTHERS = 2

const place = () => `selion.siting.${openFarm.value?.entry.id ?? ''}`

export function changeNeed(change: Partial<NeedDraft>): void {
  if (!need.value) return
  need.value = { ...need.value, ...change }
  needChanged.value = true
  localStorage.setItem(place(), JSON.stringify(need.value))
}

export function wish(row: RowAt, what: RowWish | null): void {
  if (need.value) changeNeed(wished(need.value, row, what))
}

/** The need as it was last typed here, else a first guess from what climbed; and the latest plan kept in the farm. */
export async function openNeed(): Promise<void> {
  await runsAreWanted()
  const [told, kept] = await Promise.all([ask('climbed', {}), ask('listRecords', { kind: 'siting_plans' })])
  if (!told.ok) {
    choosingFault.value = told.fault
    return
  }
  climbed.value = told.value
  if (kept.ok) keptPlans.value = (kept.value as unknown as SitingPlanKept[]).toReversed()
  need.value ??= readTyped() ?? guessed(told.value)
  const last = keptPlans.value[0]
  if (!answer.value && last?.answer) answer.value = keptAnswer(last.answer)
}

function guessed(told: readonly ClimbedFamily[]): NeedDraft {
  const from = season.value + 1
  const leftUp = runs.value.find(({ permanent }) => permanent)?.system ?? systems.value[0]?.id ?? ''
  const pulled = runs.value.find(({ permanent }) => !permanent)?.system ?? systems.value[0]?.id ?? ''
  return {
    from: String(from),
    years: '6',
    families: firstGuess(told, from, units.value),
    system: leftUp,
    instead: pulled,
    budget: '',
    labour: String(assumed.value.labourPerHour),
    wind: '',
    weights: usualWeights(),
    fix: [],
    forbid: [],
    prefer: [],
  }
}

/** What was typed on this device; a draft of another shape is not taken. */
function readTyped(): NeedDraft | null {
  try {
    const told = JSON.parse(localStorage.getItem(place()) ?? 'null') as NeedDraft | null
    if (!told || !Array.isArray(told.families) || typeof told.weights !== 'object') return null
    return { ...told, weights: { ...usualWeights(), ...told.weights } }
  } catch {
    return null
  }
}

let stop: AbortController | null = null

/** Reads the farm, then chooses in a worker; what is wrong with the need is told at its field. */
export async function chooseRows(): Promise<void> {
  if (!need.value || choosing.value) return
  const read = planOf(need.value, units.value)
  needFaults.value = 'faults' in read ? read.faults : {}
  choosingFault.value = null
  if ('faults' in read) return
  const control = new AbortController()
  stop = control
  choosing.value = { doing: 'bounding', best: null, bound: null }
  try {
    const reply = await ask('readSiting', { plan: read.plan })
    if (!reply.ok) {
      choosingFault.value = reply.fault
      return
    }
    if ('faults' in reply.value) {
      needFaults.value = Object.fromEntries(reply.value.faults.map(({ field, reason }) => [field, `${reason}.`]))
      return
    }
    const chosen = await chooseInWorker(reply.value.reading, OTHERS, {
      gap: GAP,
      seconds: SECONDS,
      signal: control.signal,
      progress: (progress) => {
        choosing.value = progress
      },
    })
    if ('answer' in chosen) {
      answer.value = chosen.answer
      lookedAt.value = 0
      needChanged.value = false
    } else if ('failed' in chosen)
      choosingFault.value = {
        kind: 'stopped',
        field: null,
        record: null,
        detail: `Nothing was chosen: ${chosen.failed}.`,
      }
  } finally {
    choosing.value = null
  }
}

export const stopChoosing = () => stop?.abort()

/** Keeps the need and the answer in the farm, as one step. */
export async function keepPlan(name: string): Promise<DeskFault | null> {
  if (!need.value || !answer.value) return null
  const read = planOf(need.value, units.value)
  if ('faults' in read) {
    needFaults.value = read.faults
    return null
  }
  const record = {
    id: newId(),
    extra: {},
    name,
    made: dayOf(new Date()),
    asked: JSON.stringify(read.plan),
    answer: JSON.stringify(answer.value),
  }
  const reply = await doEdits(`Keep the plan ${name}`, [{ do: 'add', kind: 'siting_plans', record }])
  return reply.ok ? null : reply.fault
}

/** An answer as it was kept; plans kept by an earlier build have no materials, no stock to lift, and reasons of the best alone. */
export function keptAnswer(text: string): SitingAnswer {
  const told = JSON.parse(text) as SitingAnswer
  return {
    ...told,
    materials: told.materials ?? [],
    lift: told.lift ?? [],
    others: told.others.map((one) => ({
      ...one,
      materials: one.materials ?? [],
      lift: one.lift ?? [],
      reasons: one.reasons ?? [],
    })),
  }
}

/** Takes a kept plan out of the farm, as one step. */
export async function removeKept(id: string): Promise<DeskFault | null> {
  const kept = keptPlans.value.find((one) => one.id === id)
  if (!kept) return null
  const reply = await doEdits(`Remove the plan ${kept.name}`, [{ do: 'remove', kind: 'siting_plans', id }])
  return reply.ok ? null : reply.fault
}

whenFarmLeft(() => {
  stop?.abort()
  need.value = null
  answer.value = null
  climbed.value = null
  keptPlans.value = []
  needFaults.value = {}
  choosingFault.value = null
  needChanged.value = false
  yearAsked.value = null
})
