import { batch, effect } from '@preact/signals'
import { render } from 'preact'
import type { Desk } from '../desk/door.ts'
import { Page } from './frame/Page.tsx'
import { listenForStepKeys } from './frame/stepKeys.ts'
import { SHEET_TITLE } from './names.ts'
import { BUILD, keepPage } from './state/device.ts'
import { useDesk } from './state/door.ts'
import { copyFault, copyMs, lostWhy, openFarm, phase, progress } from './state/farm.ts'
import { chooseFarm, lastFarm, openLatest } from './state/opening.ts'
import { followAddress, followToday, sheet } from './state/where.ts'

/** Puts the page into its element over a desk: the farm of the last visit, else the start card. */
export function startPage(element: HTMLElement, desk: Desk): void {
  useDesk(desk)
  desk.listen((heard) => {
    if (heard.event === 'progress') progress.value = heard.progress
    else if (heard.event === 'kept') {
      copyMs.value = heard.copyMs
      copyFault.value = false
    } else if (heard.event === 'no copy') copyFault.value = true
    else lose(heard.why)
  })
  element.replaceChildren()
  render(<Page />, element)
  followAddress()
  followToday()
  effect(() => {
    const farm = phase.value === 'open' ? openFarm.value?.farm.name : undefined
    document.title = farm === undefined ? 'Selion' : `${SHEET_TITLE[sheet.value]}, ${farm}, Selion`
  })
  listenForStepKeys()
  if (BUILD !== '') keepWhenQuiet()
  const last = lastFarm()
  void (last === null ? chooseFarm() : openLatest(last))
}

/** The farm is no longer this page's. While another is being opened, the answer to that says what is wrong. */
function lose(why: string): void {
  if (phase.value === 'open')
    batch(() => {
      lostWhy.value = why
      phase.value = 'lost'
    })
  else if (phase.value === 'choosing') openFarm.value = null
}

/** How long the page stands before its files are kept for use without a network: what the person waits for comes first. */
const FARM_OPEN_MS = 2000
const CHOOSING_MS = 10_000

function keepWhenQuiet(): void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const stop = effect(() => {
    clearTimeout(timer)
    const ms = phase.value === 'open' ? FARM_OPEN_MS : phase.value === 'choosing' ? CHOOSING_MS : null
    if (ms !== null)
      timer = setTimeout(() => {
        stop()
        void keepPage()
      }, ms)
  })
}
