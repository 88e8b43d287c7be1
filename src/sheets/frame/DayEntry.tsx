import { useState } from 'preact/hooks'
import { showDay } from '../show/dates.ts'
import { isCalendarDay } from '../show/days.ts'
import { on } from '../state/where.ts'

/** The day shown; tapped, it can be typed or taken from the device's calendar. */
export function DayEntry() {
  const [typing, setTyping] = useState(false)
  if (!typing)
    return (
      <button type="button" class="strip-day" onClick={() => setTyping(true)}>
        {showDay(on.value)}
        <span class="unseen">: go to another day</span>
      </button>
    )
  return (
    <input
      type="date"
      class="strip-day"
      aria-label="Day shown"
      value={on.value}
      ref={(input) => input?.focus()}
      onChange={(event) => {
        if (isCalendarDay(event.currentTarget.value)) on.value = event.currentTarget.value
      }}
      onBlur={() => setTyping(false)}
      onKeyDown={(event) => {
        if (event.key === 'Enter' || event.key === 'Escape') setTyping(false)
      }}
    />
  )
}
