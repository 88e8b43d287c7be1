import { signal } from '@preact/signals'
import type { DeskFault, Laid, RotationReading } from '../../desk/door.ts'
import { rotateInWorker } from '../../desk/siting/chooseInWorker.ts'
import {
  type Progress,
  ROTATION_WEIGHTS,
  type RotationAnswer,
  type RotationWeight,
} from '../../desk/siting/sitingDoor.ts'
import { readNumber } from '../ground/formValues.ts'
import { ask } from './door.ts'
import { whenFarmLeft } from './leaving.ts'
import { on, season } from './where.ts'

/** What is asked of a rotation, as it is typed. */
export interface RotationDraft {
  readonly years: string
  /** By family, where it is another than what the farm's crops ask for. */
  readonly returns: Readonly<Record<string, string>>
  readonly leave: readonly string[]
  readonly weights: Readonly<Record<RotationWeight, string>>
}

const WEIGHTS = Object.keys(ROTATION_WEIGHTS) as RotationWeight[]
const USUAL: RotationDraft = {
  years: '4',
  returns: {},
  leave: [],
  weights: { juglone: usual('juglone'), canopy: usual('canopy'), support: usual('support') },
}

export const rotationDraft = signal<RotationDraft>(USUAL)
export const rotationFaults = signal<Readonly<Record<string, string>>>({})
export const rotationFault = signal<DeskFault | null>(null)
/** The farm as the rotation sees it, of the season looked at. */
export const rotationReading = signal<RotationReading | null>(null)
export const rotating = signal<Progress | null>(null)
export const rotation = signal<RotationAnswer | null>(null)

const GAP = 0.01
const SECONDS = 10

export function changeRotation(change: Partial<RotationDraft>): void {
  rotationDraft.value = { ...rotationDraft.value, ...change }
}

/** Reads what the season's rotation would be reckoned from; what is wrong with what was typed is told at its field. */
export async function readRotation(): Promise<RotationReading | null> {
  const { years, returns, leave, weights } = rotationDraft.value
  const whole = (text: string) => {
    const value = readNumber(text)
    return value !== null && Number.isInteger(value) ? value : null
  }
  const faults: Record<string, string> = {}
  if (whole(years) === null) faults.years = 'A whole number of years is needed.'
  const asked = Object.entries(returns).filter(([, text]) => text.trim() !== '')
  for (const [family, text] of asked)
    if (whole(text) === null) faults[`return_years.${family}`] = 'A whole number of years is needed.'
  const weighed = WEIGHTS.map((name) => [name, readNumber(weights[name])] as const)
  for (const [name, value] of weighed)
    if (value === null) faults[`weights.${name}`] = 'A number is needed; 0 leaves it out.'
  rotationFaults.value = faults
  rotationFault.value = null
  if (Object.keys(faults).length > 0) return null
  const reply = await ask('readRotation', {
    on: on.value,
    rotation: {
      season: season.value,
      years: whole(years),
      return_years: Object.fromEntries(asked.map(([family, text]) => [family, whole(text)])),
      leave,
      weights: Object.fromEntries(weighed),
    },
  })
  if (!reply.ok) {
    rotationFault.value = reply.fault
    return null
  }
  if ('faults' in reply.value) {
    rotationFaults.value = Object.fromEntries(reply.value.faults.map(({ field, reason }) => [field, sentence(reason)]))
    return null
  }
  rotationReading.value = reply.value.reading
  return reply.value.reading
}

let stop: AbortController | null = null

/** Reads the farm, then chooses in a worker. */
export async function reckonRotation(): Promise<void> {
  if (rotating.value) return
  const control = new AbortController()
  stop = control
  rotating.value = { doing: 'bounding', best: null, bound: null }
  try {
    const reading = await readRotation()
    if (!reading) return
    const chosen = await rotateInWorker(reading, {
      gap: GAP,
      seconds: SECONDS,
      signal: control.signal,
      progress: (progress) => {
        rotating.value = progress
      },
    })
    if ('answer' in chosen) rotation.value = chosen.answer
    else if ('failed' in chosen) rotationFault.value = faultOf(`Nothing was reckoned: ${chosen.failed}.`)
  } finally {
    rotating.value = null
  }
}

export const stopRotating = () => stop?.abort()

/** The season's plantings in seasons of the rotation; null where that could not be told. */
export async function layRotation(of: RotationAnswer, seasons: readonly number[]): Promise<readonly Laid[] | null> {
  const reply = await ask('layRotation', { rotation: of, seasons })
  if (reply.ok) return reply.value
  rotationFault.value = reply.fault
  return null
}

/** Of another season or farm: nothing of what was reckoned holds. */
export function forgetRotation(): void {
  stop?.abort()
  rotation.value = null
  rotationReading.value = null
  rotationFaults.value = {}
  rotationFault.value = null
  rotationDraft.value = USUAL
}
whenFarmLeft(forgetRotation)

function usual(name: RotationWeight): string {
  return String(ROTATION_WEIGHTS[name].usual)
}

const sentence = (reason: string) => `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`

const faultOf = (detail: string): DeskFault => ({ kind: 'stopped', field: null, record: null, detail })
