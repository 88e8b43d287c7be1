import { type Matched, meantKey, type NotebookRead, type Ways } from '../../../../geo/notebook/notebook.ts'
import type { NotebookNames } from '../../../desk/door.ts'
import { Choice } from '../../../ui/Choice.tsx'
import { Entry } from '../../../ui/Entry.tsx'

interface Props {
  readonly read: NotebookRead
  readonly ways: Ways
  readonly names: NotebookNames
  readonly onChange: (ways: Ways) => void
}

/** What the notebook does not give away by itself: the order of day and month, a year, decimals, a unit, and names. */
export function Questions({ read, ways, names, onChange }: Props) {
  const tell = (told: Partial<Ways>) => onChange({ ...ways, ...told })
  const asked = (what: NotebookRead['asks'][number]) => read.asks.includes(what)
  const units = [...new Set(['kg', 'g', 'lb', 'oz', ...names.containers.map(({ unit }) => unit)])]
  return (
    <section class="questions" aria-label="Questions">
      {(asked('order') || ways.order !== null) && (
        <div class="question">
          <p>
            {asked('order') ? (
              <strong>Is 03/04 the 3rd of April, or March the 4th?</strong>
            ) : (
              'Days in numbers are read with'
            )}
          </p>
          <Choice
            label="Order of day and month"
            options={[
              { value: 'day first', words: 'the day first' },
              { value: 'month first', words: 'the month first' },
            ]}
            value={ways.order ?? ''}
            onChange={(order) => tell({ order: order === '' ? null : order })}
          />
        </div>
      )}
      {(asked('year') || ways.year !== null) && (
        <Entry label="Of which year are the days that tell none?">
          {(labels) => (
            <input
              {...labels}
              type="text"
              inputMode="numeric"
              value={ways.year ?? ''}
              onInput={(event) => {
                const year = Number(event.currentTarget.value)
                tell({ year: Number.isInteger(year) && year >= 1000 && year <= 9999 ? year : null })
              }}
            />
          )}
        </Entry>
      )}
      {asked('decimal') && (
        <div class="question">
          <p>
            <strong>Is 1,234 a thousand and more, or one and a little?</strong>
          </p>
          <Choice
            label="Sign before decimals"
            options={[
              { value: '.', words: 'decimals follow a point' },
              { value: ',', words: 'decimals follow a comma' },
            ]}
            value={ways.decimal ?? ''}
            onChange={(decimal) => tell({ decimal: decimal === '' ? null : decimal })}
          />
        </div>
      )}
      {(asked('unit') || ways.unit !== null) && (
        <Entry label="Quantities that tell no unit are in">
          {(labels) => (
            <select
              {...labels}
              value={ways.unit ?? ''}
              onChange={(event) => tell({ unit: event.currentTarget.value || null })}
            >
              <option value="">not known</option>
              {units.map((unit) => (
                <option key={unit} value={unit}>
                  {unit}
                </option>
              ))}
            </select>
          )}
        </Entry>
      )}
      <Meant read={read} ways={ways} names={names} onChange={onChange} />
      <div class="question">
        <p>Where a line may mean several plantings</p>
        <Choice
          label="Where a line may mean several plantings"
          options={[
            { value: 'leave', words: 'leave it out' },
            { value: 'divide', words: 'divide it over them by length' },
          ]}
          value={ways.several}
          onChange={(several) => tell({ several })}
        />
      </div>
      <div class="question">
        <p>Where nothing of that crop is recorded in the bed on the day</p>
        <Choice
          label="Where nothing of that crop is recorded in the bed"
          options={[
            { value: 'leave', words: 'leave it out' },
            { value: 'bed', words: 'count it to the bed' },
          ]}
          value={ways.absent}
          onChange={(absent) => tell({ absent })}
        />
      </div>
      <div class="question">
        <p>What is there already, told the same</p>
        <Choice
          label="What is there already, told the same"
          options={[
            { value: 'leave', words: 'leave it out' },
            { value: 'keep', words: 'keep it a second time' },
          ]}
          value={ways.again}
          onChange={(again) => tell({ again })}
        />
      </div>
    </section>
  )
}

/** Names that the farm does not know, the likest first among what they may mean. */
function Meant({ read, ways, names, onChange }: Props) {
  const known = (of: Matched): readonly { readonly id: string; readonly name: string }[] =>
    of === 'crop'
      ? names.crops
      : of === 'variety'
        ? names.varieties
        : of === 'bed'
          ? names.beds
          : [...new Set(['kg', 'g', 'lb', 'oz', ...names.containers.map(({ unit }) => unit)])].map((unit) => ({
              id: unit,
              name: unit,
            }))
  const matched = [...ways.meant].map(([key, id]) => {
    const of = key.slice(0, key.indexOf(':')) as Matched
    return {
      of,
      told: key.slice(key.indexOf(':') + 1),
      id,
      lines: null,
      suggestions: [] as { id: string; name: string }[],
    }
  })
  const open = read.unmatched.map((one) => ({ ...one, id: '' }))
  if (matched.length + open.length === 0) return null
  return (
    <div class="question">
      <h3>Names that the farm does not know</h3>
      <ul class="columns">
        {[...open, ...matched].map(({ of, told, id, lines, suggestions }) => {
          const others = known(of).filter((one) => !suggestions.some((suggested) => suggested.id === one.id))
          return (
            <li key={meantKey(of, told)}>
              <span>
                <strong>{told}</strong>
                <span class="hint">
                  {' '}
                  {of}
                  {lines !== null && `, on ${lines} ${lines === 1 ? 'line' : 'lines'}`}
                </span>
              </span>
              <select
                aria-label={`What ${told} means`}
                value={id}
                onChange={(event) => {
                  const meant = new Map(ways.meant)
                  if (event.currentTarget.value === '') meant.delete(meantKey(of, told))
                  else meant.set(meantKey(of, told), event.currentTarget.value)
                  onChange({ ...ways, meant })
                }}
              >
                <option value="">leave its lines out</option>
                {suggestions.length > 0 && (
                  <optgroup label="likely">
                    {suggestions.map((one) => (
                      <option key={one.id} value={one.id}>
                        {one.name}
                      </option>
                    ))}
                  </optgroup>
                )}
                <optgroup label="all">
                  {others.map((one) => (
                    <option key={one.id} value={one.id}>
                      {one.name}
                    </option>
                  ))}
                </optgroup>
              </select>
            </li>
          )
        })}
      </ul>
    </div>
  )
}
