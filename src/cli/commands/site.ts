import { readFile } from 'node:fs/promises'
import loadHighs from 'highs'
import type { SitingAnswer } from '../../../geo/siting/answer.ts'
import { canopiesJson } from '../../../geo/siting/canopiesJson.ts'
import { chooseSites } from '../../../geo/siting/chooseSites.ts'
import { type PlanFault, readPlanFile } from '../../../geo/siting/planFile.ts'
import { readSiting } from '../../../geo/siting/readSiting.ts'
import { Faulty, withArchive } from '../archive.ts'
import { argumentsOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'
import { WrongUse } from '../wrongUse.ts'

const USUAL_GAP = 0.01
const USUAL_SECONDS = 10

export const site: Command = {
  usage: 'site ARCHIVE --plan PLAN.json [--gap PART] [--seconds S] [--others N] [--json]',
  does: 'where permanent supports should stand and which family climbs them when, at least cost over the years of a plan',
  async run(args, { out }) {
    const { operands, values } = argumentsOf(args, {
      plan: 'value',
      gap: 'value',
      seconds: 'value',
      others: 'value',
      json: 'switch',
    })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    if (typeof values.plan !== 'string') throw new WrongUse('--plan PLAN.json is missing')
    const file = values.plan
    const gap = positiveOf('gap', values.gap, USUAL_GAP)
    const seconds = positiveOf('seconds', values.seconds, USUAL_SECONDS)
    const others = values.others === undefined ? 0 : positiveOf('others', values.others, 0)
    const read = readPlanFile(jsonIn(await readFile(file, 'utf8'), file))
    if ('faults' in read) throw faulty(file, read.faults)
    const { answer, canopies } = await withArchive(archive, async (db) => {
      const found = await readSiting(db, read.asked)
      if ('faults' in found) throw faulty(file, found.faults)
      const highs = await loadHighs()
      const clock = () => performance.now()
      return {
        answer: chooseSites(highs, found.reading, { gap, seconds, others, clock }),
        canopies: canopiesJson(found.reading),
      }
    })
    out(values.json ? jsonLine({ ...answer, canopies }) : told(answer))
    return 0
  },
}

function jsonIn(text: string, file: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    throw faulty(file, [{ field: '', reason: (error as Error).message }])
  }
}

const faulty = (file: string, faults: readonly PlanFault[]) =>
  new Faulty(faults.map(({ field, reason }) => ({ file, record: '', field, reason })))

const CAUTION =
  'Before driving posts ask the local buried-services line, however shallow. Tensioned wire recoils: eye protection, gloves, never beyond the maker’s tension. Treated timber in soil contact may be barred. What people or a building depend on is for licensed practice and the local code. Evidence on juglone is disputed: walnuts are weighed, not judged.'

function told(answer: SitingAnswer): string {
  const { status, gap, rows, cost, payback_year: payback, binding, others, notes, reasons } = answer
  if (status === 'infeasible')
    return `${[
      'The need can’t be met as it stands.',
      table(
        ['limit', 'would have to give by'],
        binding.map(({ limit, by }) => [limit, by]),
      ),
      ...notes,
    ].join('\n\n')}\n`
  const years = Object.keys(cost.by_year)
  const taken = new Set(rows.map(({ bed, side }) => `${bed} ${side}`))
  return `${[
    rows.length === 0
      ? 'None yet: pulling every autumn costs less over these years.'
      : `${rows.length} permanent rows${status === 'optimal' ? ', proved the best' : `, at most ${(gap * 100).toFixed(1)} % from the best`}.`,
    ...(rows.length > 0
      ? [
          table(
            ['bed', 'side', 'm', 'built', ...years],
            rows.map((row) => [
              row.bed,
              row.side,
              row.length_m,
              String(row.built),
              ...years.map((year) => row.years[year] ?? ''),
            ]),
          ),
        ]
      : []),
    table(
      ['year', 'cost'],
      [...Object.entries(cost.by_year), ['all', cost.total], ['pulling every autumn', cost.instead_total]],
    ),
    ...(payback === null ? [] : [`Paid back by the end of ${payback}.`]),
    ...reasons
      .filter(({ bed, side }) => taken.has(`${bed} ${side}`))
      .map(({ bed, side, why }) => `${bed} ${side}: ${why}`),
    ...others.map(
      ({ how, rows: other, cost: of }) => `Or ${how}: ${other.length} rows, ${of.total.toFixed(2)} in all.`,
    ),
    ...notes,
    CAUTION,
  ].join('\n\n')}\n`
}
