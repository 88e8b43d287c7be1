import type { Rhythm } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showCount, showNumber } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { ask } from '../state/door.ts'
import { showPane } from '../state/pane.ts'
import { byWords, dueWords } from './due.ts'
import { choices, choosePlace } from './entry.ts'
import type { PickPlace } from './pickPlace.ts'

/** What is due next: standing plantings by how far they are over their rhythm, or their kind's. A tap takes one to be picked. */
export function DueNext({ rhythm }: { readonly rhythm: readonly Rhythm[] }) {
  if (rhythm.length === 0) return null
  const columns: readonly Column<Rhythm>[] = [
    {
      head: 'planting',
      cell: ({ crop, variety, bed, side }) => (
        <span>
          {crop}, {variety}
          <span class="of-where"> {side === null ? bed : `${bed} ${side}`}</span>
        </span>
      ),
      sort: ({ crop, variety }) => `${crop} ${variety}`,
    },
    {
      head: 'days since',
      number: true,
      cell: ({ sinceDays }) => (sinceDays === null ? '' : showCount(sinceDays)),
      sort: ({ sinceDays }) => sinceDays,
    },
    {
      head: 'every',
      number: true,
      cell: ({ everyDays }) => (everyDays === null ? '' : showNumber(everyDays, Number.isInteger(everyDays) ? 0 : 1)),
      sort: ({ everyDays }) => everyDays,
    },
    {
      head: 'due',
      number: true,
      cell: (row) => {
        const by = byWords(row)
        return (
          <>
            <span class={row.overDays !== null && row.overDays > 0 ? 'amiss due' : 'due'}>{dueWords(row)}</span>
            {by !== '' && <span class="of-where due-by"> {by}</span>}
          </>
        )
      },
      sort: ({ overDays }) => overDays,
    },
  ]
  return (
    <section aria-label="Due next">
      <h2>Due next</h2>
      <Table
        caption="Plantings by what is due next"
        quietCaption
        columns={columns}
        rows={rhythm}
        rowKey={({ planting }) => planting}
        few={8}
        onChoose={(row) => void takeUp(row.planting)}
      />
      <From about="what is due">
        Days since the planting was last picked, less the median of the days between its pickings this season. With
        fewer than three pickings of its own, that of all plantings of its variety is taken, else of its crop, where
        these were picked again four times or more this season, and two plantings at least; it is told beside it. One
        never picked is due after the crop’s usual days to the first pick, where the crop tells them. Else there is too
        little to tell. What is longest over its time stands first.
      </From>
    </section>
  )
}

async function takeUp(id: string): Promise<void> {
  const reply = await ask('namePlanting', { id })
  if (!reply.ok) return
  const place: PickPlace = { is: 'planting', planting: reply.value, distanceM: null }
  await choose(null)
  choices.value = { by: 'table', places: [place] }
  choosePlace(place)
  showPane('card')
}
