import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { wholeLengthFigure } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import type { MeasuredField } from '../state/door.ts'
import { units } from '../state/farm.ts'

/** A line of the table: a field, or one system's metres in it. */
interface Line {
  readonly key: string
  readonly field: MeasuredField
  readonly system: string | null
  readonly standingM: number
}

/** Support metres by field and system, and held and unheld row metres by field. */
export function HeldTable({ fields }: { readonly fields: readonly MeasuredField[] }) {
  const lines = fields.flatMap(linesOf)
  const m = (value: number) => wholeLengthFigure(value, units.value).value
  const ofField = (line: Line, value: number) => (line.system === null ? m(value) : '')
  const unit = units.value === 'us' ? 'ft' : 'm'
  const columns: readonly Column<Line>[] = [
    {
      head: 'field, system',
      cell: ({ field, system }) => (system === null ? field.name : <span class="of-field">{system}</span>),
    },
    { head: 'supports', unit, number: true, cell: ({ standingM }) => m(standingM) },
    { head: 'climbing', unit, number: true, cell: (line) => ofField(line, line.field.climbing_m) },
    { head: 'held', unit, number: true, cell: (line) => ofField(line, line.field.held_m) },
    {
      head: 'unheld',
      unit,
      number: true,
      cell: (line) => (
        <span class={line.field.unheld_m > 0.5 ? 'amiss' : ''}>{ofField(line, line.field.unheld_m)}</span>
      ),
    },
  ]
  return (
    <section aria-label="Supports by field">
      <h2>By field</h2>
      <Table
        caption="Supports by field and system, and climbing row held and unheld"
        quietCaption
        columns={columns}
        rows={lines}
        rowKey={(line) => line.key}
        chosen={chosen.value?.kind === 'fields' ? chosen.value.id : null}
        onChoose={(line) => void choose({ kind: 'fields', id: line.field.id })}
      />
      <From about="by field">
        Supports: length of the runs that stand on the day; a run counts to the field that holds most of it. Climbing:
        row metres of the plantings of climbing crops that stand on the day.
      </From>
    </section>
  )
}

function linesOf(field: MeasuredField): readonly Line[] {
  const bySystem = Object.entries(field.support_m).filter(([, standingM]) => standingM > 0)
  const whole: Line = {
    key: field.id,
    field,
    system: null,
    standingM: bySystem.reduce((sum, [, standingM]) => sum + standingM, 0),
  }
  const parts = bySystem
    .sort(([, a], [, b]) => b - a)
    .map(([system, standingM]) => ({ key: `${field.id} ${system}`, field, system, standingM }))
  return [whole, ...parts]
}
