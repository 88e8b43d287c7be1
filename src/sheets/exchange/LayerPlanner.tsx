import { useId } from 'preact/hooks'
import type { AskedPlan, FoundInFile } from '../../desk/door.ts'
import { planLayer } from '../state/bringing.ts'
import { on } from '../state/where.ts'
import { FIELD_WORDS, KIND_WORDS, type PlannedField } from './fieldWords.ts'

interface Props {
  readonly layer: FoundInFile
  readonly plan: AskedPlan
  readonly index: number
}

/** One layer of the file: what its things are to be, and which column each of our fields has. */
export function LayerPlanner({ layer, plan, index }: Props) {
  const id = useId()
  const setKind = (kind: string) => {
    const constants: Record<string, string> = kind === 'observations' ? { on: on.value } : {}
    planLayer(index, { kind: kind === '' ? null : kind, columns: null, constants })
  }
  return (
    <section class="found-layer" aria-label={`Layer ${layer.name}`}>
      <div class="found-head">
        <label for={id}>
          <strong>{layer.name}</strong>
          <span class="hint">
            {layer.count.toLocaleString()} {layer.count === 1 ? layer.shapes.replace(/s$/, '') : layer.shapes}
          </span>
        </label>
        <select id={id} value={plan.kind ?? ''} onChange={(event) => setKind(event.currentTarget.value)}>
          <option value="">not taken</option>
          {layer.kinds.map((kind) => (
            <option key={kind} value={kind}>
              {KIND_WORDS[kind]}
            </option>
          ))}
        </select>
      </div>
      {plan.kind !== null && plan.columns !== null && (
        <table>
          <caption class="unseen">Columns of {layer.name}</caption>
          <thead>
            <tr>
              <th scope="col">ours</th>
              <th scope="col">column of the file</th>
              <th scope="col">else</th>
            </tr>
          </thead>
          <tbody>
            {(FIELD_WORDS[plan.kind] ?? []).map((field) => (
              <FieldLine
                key={field.name}
                field={field}
                layer={layer}
                plan={plan}
                columns={plan.columns!}
                index={index}
              />
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

interface LineProps extends Props {
  readonly field: PlannedField
  readonly columns: NonNullable<AskedPlan['columns']>
}

function FieldLine({ field, layer, plan, columns, index }: LineProps) {
  const column = columns[field.name]
  const samples = layer.columns.find(({ name }) => name === column)?.samples ?? []
  const setColumn = (name: string) => {
    const { [field.name]: _, ...rest } = columns
    planLayer(index, { ...plan, columns: name === '' ? rest : { ...rest, [field.name]: name } })
  }
  const setConstant = (value: string) => {
    const { [field.name]: _, ...rest } = plan.constants
    planLayer(index, { ...plan, constants: value === '' ? rest : { ...rest, [field.name]: value } })
  }
  return (
    <tr>
      <th scope="row">
        {field.words}
        {field.required && <span class="hint"> needed</span>}
      </th>
      <td>
        <select
          aria-label={`Column for ${field.words}`}
          value={column ?? ''}
          onChange={(event) => setColumn(event.currentTarget.value)}
        >
          <option value="">none</option>
          {layer.columns.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
        {samples.length > 0 && <p class="hint samples">{samples.join(', ')}</p>}
      </td>
      <td>
        {field.name === 'id' ? (
          <span class="hint">{field.otherwise}</span>
        ) : (
          <input
            type="text"
            autocomplete="off"
            aria-label={`Where there is none, ${field.words}`}
            placeholder={field.otherwise ?? ''}
            value={plan.constants[field.name] ?? ''}
            onInput={(event) => setConstant(event.currentTarget.value)}
          />
        )}
      </td>
    </tr>
  )
}
