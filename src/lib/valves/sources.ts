export interface ValveSource {
	title: string;
	issuer: string;
	year: string;
	kind: string;
}

const scan = 'maker data sheet, scan read';
const pinsOnly = 'secondary, pin numbers only';

/** Where valve data were read; every block names one of these. */
export const valveSources = {
	phil_ebf80: { title: 'EBF80 data sheet, pages 1-4', issuer: 'Philips', year: '1950-1953', kind: scan },
	eh_6bm8: {
		title: '6BM8EH data sheet',
		issuer: 'Electro-Harmonix',
		year: 'undated',
		kind: 'maker data sheet, excerpt read'
	},
	eh_6v6: {
		title: '6V6GT / 6V6EH data sheet',
		issuer: 'Electro-Harmonix',
		year: 'undated',
		kind: 'maker data sheet, excerpt read'
	},
	ge_6x4: {
		title: '6X4 twin diode, description and rating, page 1',
		issuer: 'General Electric',
		year: 'undated',
		kind: 'maker data sheet, machine-read text of the scan'
	},
	vrkicad: {
		title: 'Vintage Radio KiCad Symbols, vacuum tubes',
		issuer: 'open symbol library',
		year: '2025 snapshot',
		kind: pinsOnly
	},
	lepton: {
		title: 'Symbol library, tube/*.sym',
		issuer: 'Lepton EDA',
		year: 'snapshot',
		kind: pinsOnly
	},
	tof_ef80: {
		title: 'EF80 page; another page of the site contradicts a maker sheet, so it serves for one point only',
		issuer: 'tubeofile.com',
		year: 'undated',
		kind: 'weak secondary, machine-compiled'
	},
	vt_ebf89: {
		title: 'EBF89 / 6DC8 guide',
		issuer: 'vacuumtubes.io',
		year: 'undated',
		kind: 'weak secondary, machine-written; for the UBF89 heater only'
	},
	tm_tv2: {
		title: 'TM 11-6625-316-12, TV-2 series tube test sets, worked example for the 6SQ7',
		issuer: 'US Department of the Army',
		year: 'undated',
		kind: 'service manual, excerpt read (heater pins)'
	},
	note_35z5: {
		title: 'Longer Life for Dial Lamps, reprint',
		issuer: 'National Valve Museum (r-type.org)',
		year: 'undated',
		kind: 'magazine note, excerpt read'
	},
	eb_6u5: {
		title: 'Solid State Replacement for 6U5 and 6E5 Magic Eye Tubes',
		issuer: 'electronbunker.ca',
		year: '2023',
		kind: 'construction report, excerpt read (heater pins)'
	},
	rm_el95: {
		title: 'EL95 substituting recommendations',
		issuer: 'Radiomuseum forum article',
		year: '2011',
		kind: 'article, excerpt read'
	},
	sheet_ecc85: {
		title: 'ECC85 data sheet, pages 1-3 (January and December 1969)',
		issuer: 'not printed on the pages read (Philips handbook layout)',
		year: '1969',
		kind: scan
	},
	phil_ech81: { title: 'ECH81 data sheet, pages 1-5', issuer: 'Philips', year: '1954-1958', kind: scan },
	phil_eabc80: { title: 'EABC80 data sheet, pages 1-4', issuer: 'Philips', year: '1954-1955', kind: scan },
	phil_ebf89: { title: 'EBF89 data sheet, pages 1-3', issuer: 'Philips', year: '1958', kind: scan },
	phil_ef89: { title: 'EF89 data sheet, pages 1-3', issuer: 'Philips', year: '1955', kind: scan },
	phil_el84: { title: 'EL84 data sheet, pages 1-6', issuer: 'Philips', year: '1953-1955', kind: scan },
	mazda_ez80: {
		title: 'EZ80 data sheet, issue 1, pages 1-4',
		issuer: 'Thorn-AEI Radio Valves & Tubes (Mazda)',
		year: '1963',
		kind: scan
	},
	ge_6be6: {
		title: '6BE6 / 3BE6 / 4BE6 / 12BE6 description and rating, ET-T891A, pages 1-2',
		issuer: 'General Electric',
		year: '1956',
		kind: scan
	},
	eh_6aq8: {
		title: '6AQ8EH data sheet',
		issuer: 'Electro-Harmonix',
		year: 'undated',
		kind: 'maker data sheet, excerpt read'
	},
	svc_fmtuner: {
		title: 'Folder 480-5: service schematic, pin resistances and readings of an 8-valve FM tuner',
		issuer: 'Photofact',
		year: '1960',
		kind: 'service sheet, scan read'
	},
	codex: {
		title: 'Circuit Codex, valve reference (names the maker sheet of each entry)',
		issuer: 'Circuit Codex project',
		year: '2026 snapshot',
		kind: 'secondary, cites maker sheets that were not opened'
	},
	kicad: {
		title: 'Symbol library "Valve"',
		issuer: 'KiCad libraries',
		year: '2026 snapshot',
		kind: pinsOnly
	},
	kicad_vt: {
		title: 'KiCad Vacuum Tube Library',
		issuer: 'open symbol library',
		year: 'snapshot',
		kind: pinsOnly
	},
	tubeslib: {
		title: 'tubes.lib and tubes.lbr',
		issuer: 'two open symbol libraries of one origin',
		year: 'snapshot',
		kind: pinsOnly
	},
	rs_lbr: { title: 'tubes.lbr', issuer: 'open symbol library', year: 'snapshot', kind: pinsOnly },
	rw_6au6: { title: 'ValveSymbols', issuer: 'open symbol library', year: '2025 snapshot', kind: pinsOnly },
	chassis13: {
		title: 'Pin tables of 12BE6, 12BA6, 12AV6 and 50C5, said to be checked on a chassis, with ratings',
		issuer: 'Ambersong project',
		year: 'snapshot',
		kind: 'secondary, pin tables and a few ratings'
	},
	rm_em84: {
		title: 'EM84 page',
		issuer: 'Radiomuseum',
		year: 'undated',
		kind: 'valve data page, excerpt read'
	},
	retro_em84: {
		title: 'DIY: Digital EM84 "magic eye" replacement',
		issuer: 'retronics.no',
		year: '2024',
		kind: 'construction report, excerpt read'
	},
	ax_eye: {
		title: 'Precise dB Monitoring with Eye Tubes, reprint',
		issuer: 'audioXpress',
		year: '2006',
		kind: 'magazine article, excerpt read'
	},
	wiki_ddt: {
		title: 'Double diode triode',
		issuer: 'Wikipedia',
		year: 'undated',
		kind: 'encyclopaedia, excerpt read'
	},
	rm_b7g: {
		title: 'Common miniature 7-pin (B7G) battery valves',
		issuer: 'Radiomuseum forum article',
		year: '2012',
		kind: 'article, excerpt read (equivalents)'
	},
	mullard_batt: {
		title: 'Battery valves (two blog notes)',
		issuer: 'mullard.org',
		year: 'undated',
		kind: 'blog note, excerpt read'
	},
	wa_1u4: {
		title: 'Sub-miniature tube AM radio page (1U4 to 5678 rewiring table)',
		issuer: "a constructor's page",
		year: 'undated',
		kind: 'construction report, excerpt read'
	},
	mem: { title: 'from memory', issuer: 'none', year: 'none', kind: 'from memory, no page read' }
} as const satisfies Record<string, ValveSource>;

export type SourceId = keyof typeof valveSources;
