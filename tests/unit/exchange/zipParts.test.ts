import { execFileSync, spawnSync } from 'node:child_process'
import { closeSync, ftruncateSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { crc32 } from '../../../geo/exchange/crc32.ts'
import { readZip } from '../../../geo/exchange/readZip.ts'
import { zipParts } from '../../../geo/exchange/zipParts.ts'

const hasPython = spawnSync('python3', ['--version']).error === undefined
const text = new TextEncoder().encode('{"format":"selion-farm"}')

describe('a zip put together from parts', () => {
  it('is read as any zip, its photos as they are', () => {
    const photo = Uint8Array.from({ length: 5000 }, (_, i) => i * 31)
    const parts = zipParts(
      [['farm.json', text]],
      [
        {
          path: 'photos/ä.tif',
          bytes: photo.length,
          crc: crc32(photo.subarray(100), crc32(photo.subarray(0, 100))),
          part: photo,
        },
      ],
    )
    const { files, faults } = readZip(new Uint8Array(Buffer.concat(parts)))
    expect(faults).toEqual([])
    expect([...files]).toEqual([
      ['farm.json', text],
      ['photos/ä.tif', photo],
    ])
  })

  // Python's zipfile reads zip64 by itself (X). The large photo is a hole of the file system: no room is taken.
  it.skipIf(!hasPython)('is a zip64 beyond 4 GB, which Python reads', () => {
    const bytes = 5 * 1024 ** 3
    const tail = new TextEncoder().encode('tail')
    const parts = zipParts<number>(
      [['farm.json', text]],
      [
        { path: 'photos/large.tif', bytes, crc: 0, part: bytes },
        { path: 'photos/tail.txt', bytes: tail.length, crc: crc32(tail), part: tail.length },
      ],
    )
    const folder = mkdtempSync(join(tmpdir(), 'selion-zip-'))
    try {
      const path = join(folder, 'large.zip')
      const file = openSync(path, 'w')
      let at = 0
      for (const part of parts)
        if (typeof part !== 'number') at += writeSync(file, part, 0, part.length, at)
        else if (part === bytes) at += part
        else at += writeSync(file, tail, 0, tail.length, at)
      ftruncateSync(file, at)
      closeSync(file)
      const told = execFileSync('python3', [
        '-c',
        'import json,sys,zipfile\nz=zipfile.ZipFile(sys.argv[1])\nprint(json.dumps([[i.filename,i.file_size] for i in z.infolist()]+[z.read("photos/tail.txt").decode(),z.read("farm.json").decode()]))',
        path,
      ])
      expect(JSON.parse(told.toString())).toEqual([
        ['farm.json', text.length],
        ['photos/large.tif', bytes],
        ['photos/tail.txt', tail.length],
        'tail',
        '{"format":"selion-farm"}',
      ])
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
