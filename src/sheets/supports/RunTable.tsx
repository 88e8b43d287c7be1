import type { SupportRun } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { lengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'

/** The runs that stand on the day, with their system and age. */
export function RunTable({ runs }: { readonly runs: readonly SupportRun[] }) {
  const bedName = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const fieldName = new Map(measured.value?.fields.map(({ id, name }) => [id, name]))
  const where = (run: SupportRun) =>
    (run.bed && bedName.get(run.bed)) ?? (run.field && fieldName.get(run.field)) ?? 'outside the fields'
  const columns: readonly Column<SupportRun>[] = [
    { head: 'where', cell: where, sort: where },
    { head: 'system', cell: (run) => run.system_name, sort: (run) => run.system_name },
    {
      head: 'long',
      unit: units.value === 'us' ? 'ft' : 'm',
      number: true,
      cell: (run) => lengthFigure(run.length_m, units.value).value,
      sort: (run) => run.length_m,
    },
    {
      head: 'put up',
      cell: (run) => (run.put_up === null ? 'not known' : showDay(run.put_up)),
      sort: (run) => run.put_up,
    },
    { head: 'season', number: true, cell: ageOf, sort: (run) => run.age_seasons },
  ]
  if (runs.length === 0) return <p class="hint">No run stands on this day.</p>
  return (
    <section aria-label="Support runs">
      <h2>Runs standing</h2>
      <Table
        caption="Support runs standing on the day"
        quietCaption
        columns={columns}
        rows={runs}
        rowKey={(run) => run.id}
        chosen={chosen.value?.kind === 'supports' ? chosen.value.id : null}
        onChoose={(run) => void choose({ kind: 'supports', id: run.id })}
      />
      <From about="a run">
        Season: how many seasons of the farm it has stood in, the one it was put up in counted as the first. “Left up”
        is a run that stays from one season to the next.
      </From>
    </section>
  )
}

const ageOf = ({ age_seasons, permanent }: SupportRun) =>
  [age_seasons === null ? '–' : String(age_seasons), permanent ? 'left up' : ''].filter(Boolean).join(', ')
