import { computed, signal } from '@preact/signals'
import type { DeskFault, FarmEntry, History, OpenFarm, Progress } from '../../desk/door.ts'
import type { Units } from '../show/figures.ts'

/** Where the page stands: choosing a farm, one being opened (or made, or read), one open, or one lost to another tab. */
export type Phase = 'starting' | 'choosing' | 'opening' | 'open' | 'lost'

export const phase = signal<Phase>('starting')
/** What is being opened, in words, for the bar. */
export const openingWhat = signal('')
/** Stops what is being opened, where that can be stopped. */
export const stopOpening = signal<(() => void) | null>(null)
export const progress = signal<Progress | null>(null)
export const farms = signal<readonly FarmEntry[]>([])
/** What went wrong on the way to a farm, with what to ask again if it was locked. */
export const openingFault = signal<{
  readonly fault: DeskFault
  readonly entry: { readonly id: string; readonly name: string } | null
} | null>(null)
/** An archive that was not wholly sound, kept so that what is sound in it can be brought in. */
export const archiveAtFault = signal<{ readonly name: string; readonly bytes: Uint8Array } | null>(null)

export const openFarm = signal<OpenFarm | null>(null)
export const history = signal<History>({ undo: null, redo: null })
/** What the person must be told once about how the farm was opened. */
export const notices = signal<readonly string[]>([])
/** Why the farm is no longer this page's to write. */
export const lostWhy = signal('')
/** When the last logical copy was made, by the clock of the device. */
export const copyMs = signal<number | null>(null)

/** True while there is no room for a logical copy. */
export const copyFault = signal(false)

export const units = computed<Units>(() => openFarm.value?.farm.units ?? 'metric')
export const seasonStartMonth = computed(() => openFarm.value?.farm.season_start_month ?? 1)
