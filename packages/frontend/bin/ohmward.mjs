#!/usr/bin/env node
// The terminal's side of the command: reads the file, writes the answer, sets the exit code.
import { readFileSync } from 'node:fs'
import { runCommand } from '@ohmward/frontend/command'

const { exit, out, error } = runCommand(process.argv.slice(2), (path) => readFileSync(path, 'utf8'))
if (out !== '') process.stdout.write(out)
if (error !== '') process.stderr.write(error)
process.exitCode = exit
