import type { Answer } from '../../desk/door.ts'
import { heading, type PrintRow } from '../../print/page/blocks.ts'
import { print } from '../print/toPrint.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { groundWords } from './groundWords.ts'

/** Prints what to look at in the field, zone by zone, with boxes to tick and room to write. */
export function printQuestions(questions: Answer<'yieldNear'>['questions']): void {
  const { seasons, of } = yieldGround.value
  const title = `To look at in the field, ${groundWords(seasons, of)}`
  print({
    title,
    cautions: ['A low figure shows a place to look at, not its cause.'],
    compose: ({ map }) => [
      heading(title, true),
      {
        block: 'table',
        table: {
          caption: title,
          ticked: true,
          columns: [
            { head: 'look whether', number: false },
            { head: 'because', number: false },
          ],
          rows: [...new Set(questions.map(({ zone }) => zone))].flatMap((zone): PrintRow[] => [
            { heading: zone.charAt(0).toUpperCase() + zone.slice(1) },
            ...questions
              .filter((one) => one.zone === zone)
              .map(({ question, reason }) => ({ cells: [question, reason] })),
          ]),
        },
      },
      map(
        questions.map(({ at }) => at),
        90,
        'Where to look',
      ),
      { block: 'lines', count: 6 },
    ],
  })
}
