import { batch } from '@preact/signals'
import { render } from 'preact'
import type { Desk } from '../desk/door.ts'
import { Page } from './frame/Page.tsx'
import { listenForStepKeys } from './frame/stepKeys.ts'
import { useDesk } from './state/door.ts'
import { copyMs, lostWhy, phase, progress } from './state/farm.ts'
import { chooseFarm, lastFarm, openLast } from './state/opening.ts'
import { followAddress } from './state/where.ts'

/** Puts the page into its element over a desk: the farm of the last visit, else the start card. */
export function startPage(element: HTMLElement, desk: Desk): void {
  useDesk(desk)
  desk.listen((heard) => {
    if (heard.event === 'progress') progress.value = heard.progress
    else if (heard.event === 'kept') copyMs.value = heard.copyMs
    else
      batch(() => {
        lostWhy.value = heard.why
        phase.value = 'lost'
      })
  })
  element.replaceChildren()
  render(<Page />, element)
  followAddress()
  listenForStepKeys()
  const last = lastFarm()
  void (last === null ? chooseFarm() : openLast(last))
}
