// What is mutated and by which tests, area by area: the numeric core and the reading of build files.
// The tests of an area are those that speak of it alone; an engine put together would take minutes for each mutant.
const core = (name, tests = [`tests/core/${name}/**/*.test.ts`]) => ({
  mutate: [`src/core/${name}/**/*.ts`],
  tests,
  // It looks at a process of its own, where no change of the code is on.
  except: ['allocation.test.ts'],
});

export const AREAS = {
  plane: core('plane', ['tests/core/**/*.test.ts']),
  kinematics: core('kinematics'),
  shop: core('shop'),
  chance: core('chance'),
  lobe: core('lobe'),
  outline: core('outline'),
  clearance: core('clearance', ['tests/core/clearance/**/*.test.ts', 'tests/core/outline/**/*.test.ts']),
  reading: {
    mutate: ['src/build/{index,text,jsonScan,issues,problem,migrations,dimSchema}.ts', 'src/build/literal*.ts'],
    tests: ['tests/build/**/*.test.ts'],
  },
  rules: {
    mutate: [
      'src/build/{rules*,firing,freeLayout,layouts,measured,outlineFault,outlinePieces,rodCuts,boreCorner,limits}.ts',
    ],
    tests: ['tests/build/**/*.test.ts'],
  },
};

/** Below it the run fails, %. */
export const LEAST_SCORE = 85;
