import { readFile } from 'node:fs/promises'
import loadHighs from 'highs'
import { readRotation } from '../../../geo/rotation/readRotation.ts'
import { rotate } from '../../../geo/rotation/rotate.ts'
import { readRotationFile } from '../../../geo/rotation/rotationFile.ts'
import { canopiesJson } from '../../../geo/siting/canopiesJson.ts'
import { chooseSites } from '../../../geo/siting/chooseSites.ts'
import { type PlanFault, readPlanFile } from '../../../geo/siting/planFile.ts'
import { readSiting } from '../../../geo/siting/readSiting.ts'
import { Faulty, withArchive } from '../archive.ts'
import { argumentsOf, namedOperands, positiveOf } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { rotationTold } from '../siting/rotationTold.ts'
import { sitesTold } from '../siting/sitesTold.ts'
import { WrongUse } from '../wrongUse.ts'

const USUAL_GAP = 0.01
const USUAL_SECONDS = 10

export const site: Command = {
  usage: 'site ARCHIVE (--plan PLAN.json [--others N] | --rotation ROTATION.json) [--gap PART] [--seconds S] [--json]',
  does: 'where permanent supports should stand and which family climbs them when, at least cost over the years of a plan; or what follows what in every bed, a season carried on over some years',
  async run(args, { out }) {
    const { operands, values } = argumentsOf(args, {
      plan: 'value',
      rotation: 'value',
      gap: 'value',
      seconds: 'value',
      others: 'value',
      json: 'switch',
    })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const gap = positiveOf('gap', values.gap, USUAL_GAP)
    const seconds = positiveOf('seconds', values.seconds, USUAL_SECONDS)
    const clock = () => performance.now()
    if (typeof values.rotation === 'string') {
      if (values.plan !== undefined) throw new WrongUse('--plan and --rotation ask for two answers: give one of them')
      if (values.others !== undefined) throw new WrongUse('--others goes with --plan')
      const file = values.rotation
      const read = readRotationFile(jsonIn(await readFile(file, 'utf8'), file))
      if ('faults' in read) throw faulty(file, read.faults)
      const answer = await withArchive(archive, async (db) => {
        const found = await readRotation(db, read.asked, `${read.asked.season}-12-31`)
        if ('faults' in found) throw faulty(file, found.faults)
        return rotate(await loadHighs(), found.reading, { gap, seconds, clock })
      })
      out(values.json ? jsonLine(answer) : rotationTold(answer))
      return 0
    }
    if (typeof values.plan !== 'string') throw new WrongUse('--plan PLAN.json or --rotation ROTATION.json is missing')
    const file = values.plan
    const others = values.others === undefined ? 0 : positiveOf('others', values.others, 0)
    const read = readPlanFile(jsonIn(await readFile(file, 'utf8'), file))
    if ('faults' in read) throw faulty(file, read.faults)
    const { answer, canopies } = await withArchive(archive, async (db) => {
      const found = await readSiting(db, read.asked)
      if ('faults' in found) throw faulty(file, found.faults)
      return {
        answer: chooseSites(await loadHighs(), found.reading, { gap, seconds, others, clock }),
        canopies: canopiesJson(found.reading),
      }
    })
    const { materials, ...told } = answer
    out(values.json ? jsonLine({ ...told, canopies, materials }) : sitesTold(answer))
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
