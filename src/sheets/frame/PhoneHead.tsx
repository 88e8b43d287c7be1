import { SHEET_TITLE, SHEETS, sheetNumber } from '../names.ts'
import { network } from '../state/device.ts'
import { history, openFarm } from '../state/farm.ts'
import { look, switchSun } from '../state/light.ts'
import { redo, undo } from '../state/steps.ts'
import { goToSheet, sheet } from '../state/where.ts'
import { FarmMenu } from './FarmMenu.tsx'

/** The rail folded into one line for a phone. */
export function PhoneHead() {
  const { undo: back, redo: again } = history.value
  return (
    <header class="phone-head">
      <h1 class="unseen">{SHEET_TITLE[sheet.value]}</h1>
      <div class="phone-sheet">
        <p>
          {openFarm.value!.farm.name}
          {!network.value && <span class="no-network"> no network</span>}
        </p>
        <select
          aria-label="Sheet"
          value={sheet.value}
          onChange={(event) => {
            const name = SHEETS.find((one) => one === event.currentTarget.value)
            if (name) goToSheet(name)
          }}
        >
          {SHEETS.map((name) => (
            <option key={name} value={name}>
              {sheetNumber(name)} {SHEET_TITLE[name]}
            </option>
          ))}
        </select>
      </div>
      <button
        type="button"
        disabled={back === null}
        onClick={undo}
        aria-label={back ? `Undo: ${back}` : 'Undo: nothing to undo'}
      >
        Undo
      </button>
      <button
        type="button"
        disabled={again === null}
        onClick={redo}
        aria-label={again ? `Redo: ${again}` : 'Redo: nothing to redo'}
      >
        Redo
      </button>
      <button type="button" aria-pressed={look.value === 'sun'} aria-label="Sun: black on white" onClick={switchSun}>
        Sun
      </button>
      <FarmMenu />
    </header>
  )
}
