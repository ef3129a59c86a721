-- Three questions that a shop asks of its records, answered from the export alone by DuckDB 1.1 or newer:
--
--   torqref record --csv --records /srv/records > walks.csv
--   duckdb shop.db < demo/shop-questions.sql
--
-- One row is one event of one walk; `torqref record --csv` writes the names of the columns in its first line.
-- `printed` is the value as its source prints it, `set` what the wrench was set to, `measured` only what an
-- instrument showed. What was taken back says `undone`. Several bays: their folders, one export after the
-- other, go into the same table. `record --jsonl` has the same rows as JSON:
--   ... FROM read_json('walks.jsonl', format = 'newline_delimited')

SET VARIABLE export = 'walks.csv';
SET VARIABLE wrench = 'W2';            -- the wrench that failed its calibration
SET VARIABLE good_until = '2027-02-01'; -- the day it was last known to be right
SET VARIABLE today = '2027-04-01';

-- Every column stays text: nothing is guessed, no leading zero of a work order is lost.
CREATE OR REPLACE TABLE event AS
SELECT *
FROM read_csv(getvariable('export'), header = true, all_varchar = true, delim = ',', quote = '"', escape = '"');

-- 1. A wrench has failed its calibration: which vehicles did it touch since it was last known to be right?
CREATE OR REPLACE VIEW touched AS
SELECT work_order, walk, "group", count(*) AS bolts, min(time) AS first_pull, string_agg(DISTINCT "set", '; ') AS settings
FROM event
WHERE kind = 'check-off' AND undone IS NULL AND wrench = getvariable('wrench')
  AND substr(time, 1, 10) > getvariable('good_until')
GROUP BY work_order, walk, "group"
ORDER BY first_pull, walk;

-- 2. Where does it go wrong? Troubles and bolts left out, for each group, per thousand bolts ticked.
CREATE OR REPLACE VIEW went_wrong AS
SELECT "group",
       count(DISTINCT walk) AS walks,
       count(*) FILTER (WHERE kind = 'check-off') AS bolts,
       count(*) FILTER (WHERE kind = 'trouble') AS troubles,
       count(*) FILTER (WHERE kind = 'skip') AS left_out,
       round(1000.0 * count(*) FILTER (WHERE kind = 'trouble') / nullif(count(*) FILTER (WHERE kind = 'check-off'), 0), 2)
           AS troubles_per_thousand
FROM event
WHERE undone IS NULL
GROUP BY "group"
ORDER BY troubles_per_thousand DESC, "group";

-- 3. What was promised and not done? Walks that wait for a recheck whose day has come.
CREATE OR REPLACE VIEW overdue AS
SELECT walk, work_order, "group", max(due) AS due, date_diff('day', CAST(substr(max(due), 1, 10) AS DATE), CAST(getvariable('today') AS DATE)) AS days
FROM event
WHERE state = 'due' AND kind = 'due' AND undone IS NULL
GROUP BY walk, work_order, "group"
HAVING substr(max(due), 1, 10) < getvariable('today')
ORDER BY days DESC, walk;

SELECT * FROM touched;
SELECT * FROM went_wrong;
SELECT * FROM overdue;
