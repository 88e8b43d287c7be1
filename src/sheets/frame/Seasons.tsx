import { seasonOfDay } from '../show/days.ts'
import { openFarm, seasonStartMonth } from '../state/farm.ts'
import { on, season, today } from '../state/where.ts'
import { narrow } from './narrow.ts'
import { inSeason } from './stripPlaces.ts'

/** So many seasons stand in a row; those before are in a list. */
const IN_A_ROW = { desk: 4, phone: 2 }

/** The seasons that can be looked at: those with records, this one, and the next for planning. */
export function Seasons() {
  const now = seasonOfDay(today.value, seasonStartMonth.value)
  const all = [...new Set([...openFarm.value!.seasons, now, now + 1, season.value])].sort((a, b) => a - b)
  const inARow = narrow.value ? IN_A_ROW.phone : IN_A_ROW.desk
  const row = all.slice(-inARow)
  const earlier = all.slice(0, -inARow)
  const go = (year: number) => {
    on.value = inSeason(on.value, season.value, year)
  }
  return (
    <fieldset class="seasons">
      <legend class="unseen">Season</legend>
      {earlier.length > 0 && (
        <select
          aria-label="Earlier seasons"
          class={earlier.includes(season.value) ? 'on' : ''}
          value={earlier.includes(season.value) ? String(season.value) : ''}
          onChange={(event) => {
            if (event.currentTarget.value !== '') go(Number(event.currentTarget.value))
          }}
        >
          <option value="">earlier</option>
          {earlier.map((year) => (
            <option key={year} value={year}>
              {year}
            </option>
          ))}
        </select>
      )}
      {row.map((year) => (
        <label key={year} class={year === season.value ? 'on' : ''}>
          <input type="radio" class="unseen" name="season" checked={year === season.value} onChange={() => go(year)} />
          {year}
          {year > now && <span class="unseen"> to come</span>}
        </label>
      ))}
    </fieldset>
  )
}
