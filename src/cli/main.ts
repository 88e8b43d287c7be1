import { run } from './run.ts'

// Whoever reads may stop before the end, as `head` does: then there is nobody to tell more.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error
    process.exit()
  })

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  error: (text) => void process.stderr.write(text),
  now: new Date(),
})
