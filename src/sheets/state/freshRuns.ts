import { ask } from './door.ts'
import { whenFarmLeft } from './leaving.ts'
import { runs } from './shown.ts'
import { on, sheet } from './where.ts'

/** Runs that no sheet shows are asked for again when no step has come for so long: on a large farm it takes a while. */
const QUIET_MS = 5000
const SHOWN_ON = ['supports', 'siting']

let due: ReturnType<typeof setTimeout> | undefined

function letDueGo(): void {
  clearTimeout(due)
  due = undefined
}
// The runs of another farm come with its day.
whenFarmLeft(letDueGo)

async function askRuns(): Promise<void> {
  letDueGo()
  const reply = await ask('supportRuns', { on: on.value })
  if (reply.ok) runs.value = reply.value
}

/** A step may have changed what runs stand. */
export async function runsAreStale(): Promise<void> {
  if (SHOWN_ON.includes(sheet.value)) return askRuns()
  clearTimeout(due)
  due = setTimeout(() => void askRuns(), QUIET_MS)
}

/** For a sheet that shows them: what is still to be asked for is asked for now. */
export async function runsAreWanted(): Promise<void> {
  if (due !== undefined) await askRuns()
}
