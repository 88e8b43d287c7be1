import { WEIGHTS, type Weight } from '../../../geo/siting/weights.ts'
import { Entry } from '../../ui/Entry.tsx'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { showNumber } from '../show/figures.ts'
import { openFarm, units } from '../state/farm.ts'
import { changeNeed, chooseRows, choosing, climbed, need, needFaults, stopChoosing } from '../state/sitingPlan.ts'
import { systems } from '../state/systems.ts'
import { firstGuess, type NeedDraft } from './needDraft.ts'

const WEIGHT_WORDS: Readonly<Record<Weight, string>> = {
  shade: 'Sun taken from beds',
  juglone: 'Sensitive families near walnuts',
  canopy: 'Climbing beneath a canopy',
  low_yield: 'Beds that gave little',
  wind: 'Standing across the wind',
  prefer: 'Rows that you like',
}

/** What has to climb, for how long, with what, and what weighs how much. */
export function NeedForm() {
  const draft = need.value
  if (!draft) return <Progress doing="Reading what has climbed" />
  const faults = needFaults.value
  const unit = units.value === 'us' ? 'ft' : 'm'
  const currency = openFarm.value?.farm.currency ?? null
  const money = currency === null ? '' : `, ${currency}`
  const text = (
    label: string,
    field: string,
    value: string,
    take: (value: string) => Partial<NeedDraft>,
    hint?: string,
  ) => (
    <NumberEntry
      label={label}
      fault={faults[field]}
      hint={hint}
      value={value}
      onType={(text) => changeNeed(take(text))}
    />
  )
  const system = (label: string, field: 'system' | 'instead') => (
    <Entry label={label} fault={faults[field]}>
      {(names) => (
        <select {...names} value={draft[field]} onInput={(event) => changeNeed({ [field]: event.currentTarget.value })}>
          <option value="">Choose</option>
          {systems.value.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Entry>
  )
  const family = (n: number, change: object) =>
    changeNeed({ families: draft.families.map((one, m) => (m === n ? { ...one, ...change } : one)) })
  const rest = Object.entries(faults).filter(
    ([field]) =>
      /^(fix|forbid|prefer|need|return_years)/.test(field) &&
      !draft.families.some(({ name }) => field.endsWith(`.${name}`)),
  )
  return (
    <form
      class="need"
      aria-label="The need"
      noValidate
      data-print="no"
      onSubmit={(event) => {
        event.preventDefault()
        void chooseRows()
      }}
    >
      <h2>The need</h2>
      {draft.families.map(({ name, metres, returns }, n) => (
        <div class="beside-each" key={name}>
          <NumberEntry
            label={`${name}, ${unit} a year`}
            fault={faults[`need.${name}`]}
            value={metres}
            onType={(text) => family(n, { metres: text })}
          />
          <NumberEntry
            label={`${name} returns after, years`}
            fault={faults[`return_years.${name}`]}
            whole
            value={returns}
            onType={(text) => family(n, { returns: text })}
          />
        </div>
      ))}
      <p class="hint">
        {draft.families.length === 0
          ? 'Nothing has climbed on the farm yet: mark a crop as climbing on the Growing sheet and set it out, and its family stands here.'
          : 'First guess: the least that each family climbed in any of the last three seasons with climbers, and the longest return that its crops ask for.'}{' '}
        {climbed.value && draft.families.length > 0 && (
          <button
            type="button"
            class="quiet"
            onClick={() => changeNeed({ families: firstGuess(climbed.value!, Number(draft.from), units.value) })}
          >
            Guess again
          </button>
        )}
      </p>
      <div class="beside-each">
        {text('First year', 'from', draft.from, (from) => ({ from }))}
        {text('Years looked ahead', 'years', draft.years, (years) => ({ years }))}
        {system('Left up', 'system')}
        {system('Pulled each autumn instead', 'instead')}
        {text(`An hour of labour costs${money}`, 'labour_per_hour', draft.labour, (labour) => ({ labour }))}
        {text(
          `Most to build with${money}`,
          'budget',
          draft.budget,
          (budget) => ({ budget }),
          'Empty: as much as it takes.',
        )}
        {text(
          'Wind comes from, degrees',
          'wind_from_deg',
          draft.wind,
          (wind) => ({ wind }),
          '270 is west. Empty: wind is left out.',
        )}
      </div>
      <details class="more" open={Object.keys(faults).some((field) => field.startsWith('weights'))}>
        <summary>What weighs how much</summary>
        <p class="hint">Beside the money; 0 leaves it out. The values to start from are our assumption.</p>
        {(Object.keys(WEIGHTS) as Weight[]).map((name) => (
          <div key={name}>
            {text(
              WEIGHT_WORDS[name],
              `weights.${name}`,
              draft.weights[name],
              (value) => ({ weights: { ...draft.weights, [name]: value } }),
              `${sentence(WEIGHTS[name].unit)} To start from: ${showNumber(WEIGHTS[name].usual, 2)}.`,
            )}
          </div>
        ))}
      </details>
      {rest.map(([field, words]) => (
        <p key={field} class="fault" role="alert">
          {words}
        </p>
      ))}
      {choosing.value ? (
        <>
          <Progress doing={DOING[choosing.value.doing]} />
          {choosing.value.doing !== 'comparing' && <p role="status">{gapWords(choosing.value)}</p>}
          <button type="button" onClick={stopChoosing}>
            Stop
          </button>
        </>
      ) : (
        <button type="submit" class="first-deed">
          Choose the rows
        </button>
      )}
    </form>
  )
}

const DOING = {
  bounding: 'Reckoning what no plan can come below',
  choosing: 'Looking for better rows',
  proving: 'Proving how good it is',
  comparing: 'Looking at other plans beside it',
} as const

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`

function gapWords({ best, bound }: { readonly best: number | null; readonly bound: number | null }): string {
  if (best === null) return 'No plan yet.'
  if (bound === null || best <= 0) return 'A plan is found; how good it is is not known yet.'
  return `A plan is found that is at most ${showNumber((100 * Math.max(0, best - bound)) / best, 1)} % from the best.`
}
