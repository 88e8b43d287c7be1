import type { Database } from './database.ts'
import type { Act } from './edit.ts'
import type { Pace } from './pace.ts'
import { backward, type Change, type Step, writeStep } from './step.ts'

/** What can be taken back and what can be done again, the nearest last. */
export interface Stacks {
  readonly undo: readonly StepLabel[]
  readonly redo: readonly StepLabel[]
}
export interface StepLabel {
  readonly id: string
  readonly label: string
}

const DEPTH = 400

/** Reads the stacks from the journal; they survive closing the page. Looks at the last 400 steps. */
export async function readStacks(db: Database): Promise<Stacks> {
  const steps = await db.rows<StepLabel & { undoes: string | null }>(
    `select id, label, undoes from (select * from steps order by ord desc limit ${DEPTH}) s order by ord`,
  )
  return stacksOf(steps)
}

/** The stacks after a run of steps: undoing moves a step across, redoing (undoing the undo) moves it back. */
export function stacksOf(steps: readonly (StepLabel & { undoes: string | null })[]): Stacks {
  const undo: StepLabel[] = []
  let redo: StepLabel[] = []
  for (const { id, label, undoes } of steps) {
    if (undoes === null) {
      undo.push({ id, label })
      redo = []
    } else if (undo.at(-1)?.id === undoes) {
      undo.pop()
      redo.push({ id, label })
    } else if (redo.at(-1)?.id === undoes) {
      redo.pop()
      undo.push({ id, label })
    }
  }
  return { undo, redo }
}

/** Takes back the last step, or does again the last one taken back. Null when there is none. */
export async function takeBack(
  db: Database,
  which: 'undo' | 'redo',
  act: Omit<Act, 'label'>,
  pace?: Pace,
): Promise<Step | null> {
  const target = (await readStacks(db))[which].at(-1)
  if (!target) return null
  return db.transaction(async (tx) => {
    const changes = await tx.rows<Change>(
      'select kind, record, before, after from changes where step = $1 order by n',
      [target.id],
    )
    const step: Step = {
      ...act,
      label: target.label,
      undoes: target.id,
      changes: backward(changes),
    }
    await writeStep(tx, step, pace)
    return step
  })
}
