import { useEffect, useRef } from 'preact/hooks'
import type { StretchHold } from '../../draw/holdStretch.ts'
import { openFarm, units } from '../state/farm.ts'
import { farmMap } from '../state/mapHandle.ts'
import { change, laneOf, type SettingOut, settingOut } from '../state/settingOut.ts'
import { type Draft, rowText, spanOf } from './draft.ts'

/** Shows the stretches that are being set out on the map, with handles on the one in hand, and hears of rows that are tapped. */
export function useStretchOnMap(now: SettingOut, nameOf: (draft: Draft) => string, onRow: (row: string) => void): void {
  const hold = useRef<StretchHold | null>(null)
  const heard = useRef(onRow)
  heard.current = onRow

  const show = () => {
    // As it is at this moment: keys and moves may be ahead of what was rendered.
    const { drafts, history, active } = settingOut.peek() ?? now
    const shown = drafts.flatMap((draft, at) => {
      const lane = laneOf(history, draft.row)
      const span = spanOf(draft, lane, units.value)
      return draft.row !== null && lane && span && span[1] > span[0]
        ? [{ at, row: draft.row, span: [span[0], Math.min(span[1], lane.lengthM)] as const, words: nameOf(draft) }]
        : []
    })
    hold.current?.show(
      shown,
      shown.findIndex(({ at }) => at === active),
    )
  }

  useEffect(() => {
    let over = false
    const map = farmMap.value
    const origin = openFarm.value?.origin
    if (!map || !origin) return
    void import('../../draw/holdStretch.ts').then(({ holdStretch }) => {
      if (over) return
      hold.current = holdStretch(map, origin, {
        onSpan: ([from, to]) => change({ from: rowText(from, units.value), to: rowText(to, units.value) }),
        onRow: (row) => heard.current(row),
      })
      show()
    })
    return () => {
      over = true
      hold.current?.letGo()
      hold.current = null
    }
  }, [])
  useEffect(show)
}
