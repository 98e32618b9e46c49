import fc from 'fast-check'

// Properties are drawn alike on every run, so that a failure is of the change at hand; FC_SEED draws others.
fc.configureGlobal({ seed: Number(process.env.FC_SEED ?? 1) })
