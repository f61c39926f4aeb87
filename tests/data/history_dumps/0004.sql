BEGIN;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
CREATE TABLE customers (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	phone VARCHAR NOT NULL, 
	CONSTRAINT pk_customers PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_customers_name_given CHECK (name <> '')
);
CREATE INDEX ix_customers_site_id_name_key ON customers (site_id, name_key);
CREATE TABLE people (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	active BOOLEAN NOT NULL, 
	CONSTRAINT pk_people PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_people_name_given CHECK (name <> ''), 
	CONSTRAINT ck_people_role_word CHECK (role IN ('technician', 'advisor', 'manager'))
);
CREATE TABLE trail (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	at DATETIME NOT NULL, 
	who VARCHAR NOT NULL, 
	what VARCHAR NOT NULL, 
	entry_id VARCHAR NOT NULL, 
	details JSON NOT NULL, 
	CONSTRAINT pk_trail PRIMARY KEY (site_id, id)
);
CREATE INDEX ix_trail_site_id_at ON trail (site_id, at);
CREATE INDEX ix_trail_site_id_entry_id ON trail (site_id, entry_id);
CREATE TABLE vehicles (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	plate VARCHAR NOT NULL, 
	plate_key VARCHAR NOT NULL, 
	vin VARCHAR NOT NULL, 
	customer_id VARCHAR, 
	banks JSON NOT NULL, 
	firing_order JSON NOT NULL, 
	traits JSON NOT NULL, family VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_vehicles PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_vehicles_called_something CHECK (name <> '' OR plate <> '' OR vin <> ''), 
	CONSTRAINT fk_vehicles_customer_id_customers FOREIGN KEY(site_id, customer_id) REFERENCES customers (site_id, id)
);
CREATE INDEX ix_vehicles_site_id_customer_id ON vehicles (site_id, customer_id);
CREATE UNIQUE INDEX uq_vehicles_plate ON vehicles (site_id, plate_key) WHERE plate_key <> '';
CREATE UNIQUE INDEX uq_vehicles_vin ON vehicles (site_id, vin) WHERE vin <> '';
CREATE TABLE vehicle_words (
	number INTEGER NOT NULL, 
	site_id VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	plate VARCHAR NOT NULL, 
	vin VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	customer VARCHAR NOT NULL, 
	orders VARCHAR NOT NULL, 
	CONSTRAINT pk_vehicle_words PRIMARY KEY (number), 
	CONSTRAINT fk_vehicle_words_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id), 
	CONSTRAINT uq_vehicle_words_site_id_vehicle_id UNIQUE (site_id, vehicle_id)
);
CREATE TABLE visits (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	here BOOLEAN NOT NULL, 
	shop VARCHAR NOT NULL, 
	order_number VARCHAR NOT NULL, 
	day DATE, 
	when_words VARCHAR NOT NULL, 
	odometer_typed VARCHAR NOT NULL, 
	odometer_unit VARCHAR NOT NULL, 
	odometer_km FLOAT, 
	complaint_words VARCHAR NOT NULL, 
	cost VARCHAR NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_visits PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_visits_odometer_with_unit CHECK ((odometer_km IS NULL) = (odometer_unit = '')), 
	CONSTRAINT ck_visits_odometer_unit_word CHECK (odometer_unit IN ('', 'km', 'mi')), 
	CONSTRAINT ck_visits_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT ck_visits_odometer_not_negative CHECK (odometer_km IS NULL OR odometer_km >= 0), 
	CONSTRAINT fk_visits_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id)
);
CREATE INDEX ix_visits_site_id_order_number ON visits (site_id, order_number);
CREATE INDEX ix_visits_site_id_vehicle_id_position ON visits (site_id, vehicle_id, position);
CREATE TABLE case_visits (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	CONSTRAINT pk_case_visits PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_case_visits_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_case_visits_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT uq_case_visits_site_id_case_id_visit_id UNIQUE (site_id, case_id, visit_id)
);
CREATE INDEX ix_case_visits_site_id_visit_id ON case_visits (site_id, visit_id);
CREATE TABLE codes (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	code VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	freeze_frame JSON NOT NULL, 
	CONSTRAINT pk_codes PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_codes_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_codes_state_word CHECK (state IN ('pending', 'confirmed', 'permanent', 'absent')), 
	CONSTRAINT fk_codes_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_codes_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_codes_site_id_code ON codes (site_id, code);
CREATE INDEX ix_codes_site_id_visit_id ON codes (site_id, visit_id);
CREATE TABLE codes_cleared (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	cleared_where VARCHAR NOT NULL, 
	km_ago FLOAT, 
	day DATE, 
	CONSTRAINT pk_codes_cleared PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_codes_cleared_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_codes_cleared_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_codes_cleared_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_codes_cleared_site_id_visit_id ON codes_cleared (site_id, visit_id);
CREATE TABLE jobs (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	operation VARCHAR NOT NULL, 
	places JSON NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_jobs PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_jobs_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_jobs_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_jobs_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_jobs_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_jobs_site_id_operation ON jobs (site_id, operation);
CREATE INDEX ix_jobs_site_id_visit_id ON jobs (site_id, visit_id);
CREATE TABLE results (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	test VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	outcome VARCHAR NOT NULL, 
	reading_typed VARCHAR, 
	reading_value FLOAT, 
	reading_unit VARCHAR, 
	reading_resolution FLOAT, 
	low FLOAT, 
	high FLOAT, 
	specification_source VARCHAR, 
	weight_abnormal FLOAT, 
	weight_normal FLOAT, 
	situations JSON NOT NULL, 
	after_work BOOLEAN NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_results PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_results_outcome_word CHECK (outcome IN ('normal', 'abnormal', 'uncertain')), 
	CONSTRAINT ck_results_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_results_reading_with_unit CHECK ((reading_value IS NULL) = (reading_unit IS NULL)), 
	CONSTRAINT ck_results_weights_together CHECK ((weight_abnormal IS NULL) = (weight_normal IS NULL)), 
	CONSTRAINT ck_results_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_results_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_results_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_results_site_id_test_outcome ON results (site_id, test, outcome);
CREATE INDEX ix_results_site_id_visit_id ON results (site_id, visit_id);
CREATE TABLE snapshots (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	rules_version VARCHAR NOT NULL, 
	board JSON NOT NULL, 
	minutes FLOAT, 
	CONSTRAINT pk_snapshots PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_snapshots_why_word CHECK (why IN ('result recorded', 'decision', 'closing')), 
	CONSTRAINT ck_snapshots_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_snapshots_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id)
);
CREATE INDEX ix_snapshots_site_id_case_id_recorded_at ON snapshots (site_id, case_id, recorded_at);
CREATE TABLE symptoms (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	symptom VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	presence VARCHAR NOT NULL, 
	conditions JSON NOT NULL, 
	absent_for_km FLOAT, 
	after_visit_id VARCHAR, 
	CONSTRAINT pk_symptoms PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_symptoms_presence_word CHECK (presence IN ('present', 'absent', 'not reproduced')), 
	CONSTRAINT ck_symptoms_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_symptoms_after_visit_id_visits FOREIGN KEY(site_id, after_visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_symptoms_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_symptoms_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_symptoms_site_id_visit_id ON symptoms (site_id, visit_id);
CREATE TABLE closings (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	cause VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	deciding_result_id VARCHAR, 
	introduced VARCHAR NOT NULL, 
	introduced_by_job_id VARCHAR, 
	minutes FLOAT, 
	note VARCHAR NOT NULL, left_open JSON DEFAULT '[]' NOT NULL, left_open_why VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_closings PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_closings_cause_with_place CHECK ((cause = '') = (place = '')), 
	CONSTRAINT ck_closings_introduced_word CHECK (introduced IN ('by a job', 'not by a job', 'not known')), 
	CONSTRAINT ck_closings_job_introduced CHECK (introduced_by_job_id IS NULL OR introduced = 'by a job'), 
	CONSTRAINT ck_closings_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT fk_closings_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_closings_deciding_result_id_results FOREIGN KEY(site_id, deciding_result_id) REFERENCES results (site_id, id), 
	CONSTRAINT fk_closings_introduced_by_job_id_jobs FOREIGN KEY(site_id, introduced_by_job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_closings_site_id_case_id ON closings (site_id, case_id);
CREATE INDEX ix_closings_site_id_cause ON closings (site_id, cause);
CREATE TABLE duties (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	job_id VARCHAR NOT NULL, 
	duty VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, photo VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_duties PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_duties_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT ck_duties_state_word CHECK (state IN ('verified', 'found wrong', 'not checked', 'not applicable')), 
	CONSTRAINT fk_duties_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_duties_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id), 
	CONSTRAINT fk_duties_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_duties_site_id_job_id ON duties (site_id, job_id);
CREATE INDEX ix_duties_site_id_visit_id ON duties (site_id, visit_id);
CREATE TABLE parts (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	job_id VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	number VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	date_code VARCHAR NOT NULL, 
	receipt BOOLEAN NOT NULL, 
	CONSTRAINT pk_parts PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_parts_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_parts_site_id_job_id ON parts (site_id, job_id);
CREATE INDEX ix_parts_site_id_number ON parts (site_id, number);
CREATE VIRTUAL TABLE vehicle_words_text using fts5(plate, vin, name, customer, orders, content='vehicle_words', content_rowid='number', tokenize='trigram');
CREATE TRIGGER vehicle_words_put after insert on vehicle_words begin insert into vehicle_words_text(rowid, plate, vin, name, customer, orders) values (new.number, new.plate, new.vin, new.name, new.customer, new.orders); end;
CREATE TRIGGER vehicle_words_gone after delete on vehicle_words begin insert into vehicle_words_text(vehicle_words_text, rowid, plate, vin, name, customer, orders) values ('delete', old.number, old.plate, old.vin, old.name, old.customer, old.orders); end;
CREATE TRIGGER vehicle_words_new after update on vehicle_words begin insert into vehicle_words_text(vehicle_words_text, rowid, plate, vin, name, customer, orders) values ('delete', old.number, old.plate, old.vin, old.name, old.customer, old.orders); insert into vehicle_words_text(rowid, plate, vin, name, customer, orders) values (new.number, new.plate, new.vin, new.name, new.customer, new.orders); end;
CREATE TABLE defects (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	words VARCHAR NOT NULL, 
	job_id VARCHAR, 
	photo VARCHAR NOT NULL, 
	CONSTRAINT pk_defects PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_defects_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_defects_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_defects_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_defects_job_id_jobs FOREIGN KEY(site_id, job_id) REFERENCES jobs (site_id, id)
);
CREATE INDEX ix_defects_site_id_visit_id ON defects (site_id, visit_id);
CREATE INDEX ix_defects_site_id_job_id ON defects (site_id, job_id);
CREATE INDEX ix_defects_site_id_kind ON defects (site_id, kind);
CREATE TABLE put_back (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	visit_id VARCHAR, 
	cover VARCHAR NOT NULL, 
	CONSTRAINT pk_put_back PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_put_back_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_put_back_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_put_back_site_id_case_id ON put_back (site_id, case_id);
CREATE TABLE "cases" (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	vehicle_id VARCHAR NOT NULL, 
	complaint VARCHAR NOT NULL, 
	complaint_place VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	reproduced VARCHAR NOT NULL, 
	reproduced_conditions JSON NOT NULL, 
	may_drive JSON NOT NULL, 
	open_covers JSON NOT NULL, 
	CONSTRAINT pk_cases PRIMARY KEY (site_id, id), 
	CONSTRAINT fk_cases_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id), 
	CONSTRAINT ck_cases_reproduced_word CHECK (reproduced IN ('yes', 'no', 'not tried')), 
	CONSTRAINT ck_cases_state_word CHECK (state IN ('open', 'under proof', 'closed'))
);
CREATE INDEX ix_cases_site_id_vehicle_id ON cases (site_id, vehicle_id);
CREATE INDEX ix_cases_site_id_state_recorded_at ON cases (site_id, state, recorded_at);
CREATE TABLE proof_runs (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	day DATE, 
	came_back BOOLEAN NOT NULL, 
	ordinary BOOLEAN NOT NULL, 
	conditions JSON NOT NULL, 
	km FLOAT, 
	minutes FLOAT, 
	starts FLOAT, 
	cycles FLOAT, 
	route VARCHAR NOT NULL, 
	CONSTRAINT pk_proof_runs PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_proof_runs_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_proof_runs_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_proof_runs_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT ck_proof_runs_km_not_negative CHECK (km IS NULL OR km >= 0), 
	CONSTRAINT ck_proof_runs_minutes_not_negative CHECK (minutes IS NULL OR minutes >= 0), 
	CONSTRAINT ck_proof_runs_starts_not_negative CHECK (starts IS NULL OR starts >= 0), 
	CONSTRAINT ck_proof_runs_cycles_not_negative CHECK (cycles IS NULL OR cycles >= 0)
);
CREATE INDEX ix_proof_runs_site_id_visit_id ON proof_runs (site_id, visit_id);
CREATE TABLE scans (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	case_id VARCHAR, 
	source VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	day DATE, 
	monitors JSON NOT NULL, 
	codes JSON NOT NULL, 
	cleared BOOLEAN, 
	CONSTRAINT pk_scans PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_scans_source_word CHECK (source IN ('measured here', 'seen here', 'on paper', 'as told', 'from traces')), 
	CONSTRAINT fk_scans_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id), 
	CONSTRAINT fk_scans_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id)
);
CREATE INDEX ix_scans_site_id_visit_id ON scans (site_id, visit_id);
CREATE TABLE proofs (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	visit_id VARCHAR NOT NULL, 
	cause VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	worked FLOAT, 
	note VARCHAR NOT NULL, 
	CONSTRAINT pk_proofs PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_proofs_cause_with_place CHECK ((cause = '') = (place = '')), 
	CONSTRAINT ck_proofs_worked_is_a_chance CHECK (worked IS NULL OR (worked >= 0 AND worked <= 1)), 
	CONSTRAINT fk_proofs_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id), 
	CONSTRAINT fk_proofs_visit_id_visits FOREIGN KEY(site_id, visit_id) REFERENCES visits (site_id, id)
);
CREATE INDEX ix_proofs_site_id_case_id ON proofs (site_id, case_id);
CREATE TABLE returns (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	case_id VARCHAR NOT NULL, 
	entry_id VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	cause VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	CONSTRAINT pk_returns PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_returns_state_word CHECK (state IN ('open', 'under proof', 'closed')), 
	CONSTRAINT ck_returns_cause_with_place CHECK ((cause = '') = (place = '')), 
	CONSTRAINT fk_returns_case_id_cases FOREIGN KEY(site_id, case_id) REFERENCES cases (site_id, id)
);
CREATE INDEX ix_returns_site_id_case_id ON returns (site_id, case_id);
CREATE INDEX ix_returns_site_id_entry_id ON returns (site_id, entry_id);
CREATE TABLE figures (
	site_id VARCHAR NOT NULL, 
	id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	recorded_by VARCHAR NOT NULL, 
	voided_at DATETIME, 
	voided_by VARCHAR, 
	void_reason VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	about VARCHAR NOT NULL, 
	family VARCHAR NOT NULL, 
	value FLOAT NOT NULL, 
	words VARCHAR NOT NULL, 
	CONSTRAINT pk_figures PRIMARY KEY (site_id, id), 
	CONSTRAINT ck_figures_kind_word CHECK (kind IN ('labour rate', 'currency', 'hours when nothing listed helps', 'operation minutes', 'test minutes', 'cover minutes', 'part price')), 
	CONSTRAINT ck_figures_value_not_negative CHECK (value >= 0)
);
CREATE UNIQUE INDEX uq_figures_standing ON figures (site_id, kind, about, family) WHERE voided_at IS NULL;
INSERT INTO alembic_version (version_num) VALUES ('0004');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-7001-8ceb-a95f4ff2e026', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-700f-b493-f836f2004883', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO people (site_id, id, version, recorded_at, recorded_by, name, role, active) VALUES ('bay', 'ida', 1, '2026-06-01 09:30:00.000000', 'ida', 'Ida Lorne', 'technician', 1);
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7000-ad5e-14baadfcc074', '2026-06-01 09:30:00.000000', 'ida', 'added a person', 'ida', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7002-8f1c-c62fbfaffd3d', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-7001-8ceb-a95f4ff2e026', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7004-a261-7ea44cc999e8', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7003-b73d-4d912f823aad', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7006-8aa0-50df1ac4250d', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7005-9598-2773d1d8b97e', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7008-958b-f8f93019b70a', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7007-ab16-993f4ec0634f', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700a-84ec-5593f58f04d0', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700c-95bf-53ff2be0d342', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700b-b922-ca5befb70285', '{"case": "019e8284-c5c0-7009-b6aa-8b46ccfbd76d", "visit": "019e8284-c5c0-7005-9598-2773d1d8b97e"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700e-becf-236d598500fd', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700d-944d-a1b9cc273b63', '{"case": "019e8284-c5c0-7009-b6aa-8b46ccfbd76d", "visit": "019e8284-c5c0-7007-ab16-993f4ec0634f"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7010-ace9-ff9b4aaf1465', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-700f-b493-f836f2004883', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7012-97b3-36d58aae8c6c', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7011-8935-da1a5210e0bd', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7014-b1ed-843e1d49bd8f', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7013-a3fd-16496cedfd3b', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7016-9fab-71b0be7800d8', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7015-b8e0-4f4d72bb0c47', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7018-a112-25079a753725', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7017-8256-b6993e4e0c30', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701a-b34d-66ffd6dda6c6', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-7019-bb01-71b950d218a5', '{"case": "019e8284-c5c0-7017-8256-b6993e4e0c30", "visit": "019e8284-c5c0-7013-a3fd-16496cedfd3b"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701c-bf48-3e6732f781e9', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-701b-bfd2-726cdc77b3b3', '{"case": "019e8284-c5c0-7017-8256-b6993e4e0c30", "visit": "019e8284-c5c0-7015-b8e0-4f4d72bb0c47"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701e-a626-9e6e52ef28d5', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701d-a4aa-83d0d52215b9', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7020-82bb-42ded18ad870', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701f-947c-4ed2fae93123', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7022-a32c-b2506313ecb6', '2026-06-01 09:30:00.000000', 'ida', 'recorded a trouble code', '019e8284-c5c0-7021-95dc-e80540c46e19', '{"said": "P0303"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7024-b296-97d5f005af54', '2026-06-01 09:30:00.000000', 'ida', 'recorded that codes had been cleared', '019e8284-c5c0-7023-ba12-3266455407e7', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7026-9258-d5becf39ed0a', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7025-8f05-276523e367da', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7028-b429-183dbbcb89ba', '2026-06-01 09:30:00.000000', 'ida', 'recorded a job', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', '{"said": "adjust-valve-lash"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702c-ac84-b1eebe239023', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702b-b927-11ce5033913a', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702e-80c3-155772a38a34', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702d-b728-46a8831de7a4', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7030-bfea-35f9fc0ee6b8', '2026-06-01 09:30:00.000000', 'ida', 'recorded a defect', '019e8284-c5c0-702f-937f-d5cc6eefb7f6', '{"said": "oil-in-plug-well"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7031-a7b6-4af38e3779ef', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '{"covers": ["plugs-out"]}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7032-ae4d-28e4b84e29a2', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '{"covers": []}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7034-a6ee-47d70d00d44a', '2026-06-01 09:30:00.000000', 'ida', 'put a cover back', '019e8284-c5c0-7033-b83d-113eb4c1735f', '{"cover": "plugs-out"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7036-9def-36446f9a4d4d', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7035-8823-108540607f68', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7039-ab9b-b52419a9267f', '2026-06-01 09:30:00.000000', 'ida', 'closed a case', '019e8284-c5c0-7038-b941-dd3e9553d433', '{"case": "019e8284-c5c0-7009-b6aa-8b46ccfbd76d"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703b-b470-686f9fa91cdf', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-703a-b94a-f54ff4f0cf15', '{"kind": "labour rate", "about": "", "words": "90"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703d-a55d-5cc5f667609a', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-703c-b05f-4b802ac457b4', '{"kind": "labour rate", "about": "", "words": "95"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703e-90c5-9f63ccea7429', '2026-06-01 09:30:00.000000', 'ida', 'named a vehicle''s family', '019e8284-c5c0-7003-b73d-4d912f823aad', '{"family": "big estate"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703f-9f65-23520579962b', '2026-06-01 09:30:00.000000', 'ida', 'struck out a result', '019e8284-c5c0-7035-8823-108540607f68', '{"why": "other vehicle"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7041-ba5b-0eb81fa4e1cf', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-7040-96c8-3994217132d0', '{"came_back": false}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7043-9397-919d20a6062f', '2026-06-01 09:30:00.000000', 'ida', 'recorded a scan after a repair', '019e8284-c5c0-7042-9124-aad1961c23d9', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7045-b6a6-87874f2257f4', '2026-06-01 09:30:00.000000', 'ida', 'put a case under proof', '019e8284-c5c0-7044-9652-6f4f8f29c940', '{"case": "019e8284-c5c0-7017-8256-b6993e4e0c30"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7047-802d-465f1e366da0', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-7046-888b-3e3c910087b2', '{"came_back": true}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7049-82f6-05894afb3f15', '2026-06-01 09:30:00.000000', 'ida', 'the complaint came back', '019e8284-c5c0-7048-aa80-f6f93bd36265', '{"case": "019e8284-c5c0-7017-8256-b6993e4e0c30"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-704a-b934-a0e0f32edadc', '2026-06-01 09:30:00.000000', 'ida', 'reopened a case', '019e8284-c5c0-7017-8256-b6993e4e0c30', '{"why": "The complaint came back."}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7003-b73d-4d912f823aad', 2, '2026-06-01 09:30:00.000000', 'ida', 'grey estate', 'KX-41 QP', 'KX41QP', '', '019e8284-c5c0-7001-8ceb-a95f4ff2e026', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', 'big estate');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7011-8935-da1a5210e0bd', 1, '2026-06-01 09:30:00.000000', 'ida', 'blue van', 'KX-42 RT', 'KX42RT', '', '019e8284-c5c0-700f-b493-f836f2004883', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', '');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (1, 'bay', '019e8284-c5c0-7003-b73d-4d912f823aad', 'KX-41 QP KX41QP', '', 'grey estate', 'Marlo Vett', 'W-7 W7 R-2041 R2041');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (2, 'bay', '019e8284-c5c0-7011-8935-da1a5210e0bd', 'KX-42 RT KX42RT', '', 'blue van', 'Marlo Vett', 'W-7 W7 R-2042 R2042');
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7005-9598-2773d1d8b97e', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-b73d-4d912f823aad', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7007-ab16-993f4ec0634f', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-b73d-4d912f823aad', 1, 1, '', 'R-2041', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7013-a3fd-16496cedfd3b', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-8935-da1a5210e0bd', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7015-b8e0-4f4d72bb0c47', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-8935-da1a5210e0bd', 1, 1, '', 'R-2042', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700b-b922-ca5befb70285', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '019e8284-c5c0-7005-9598-2773d1d8b97e');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700d-944d-a1b9cc273b63', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '019e8284-c5c0-7007-ab16-993f4ec0634f');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-7019-bb01-71b950d218a5', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8256-b6993e4e0c30', '019e8284-c5c0-7013-a3fd-16496cedfd3b');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-701b-bfd2-726cdc77b3b3', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8256-b6993e4e0c30', '019e8284-c5c0-7015-b8e0-4f4d72bb0c47');
INSERT INTO codes (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, code, state, freeze_frame) VALUES ('bay', '019e8284-c5c0-7021-95dc-e80540c46e19', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'measured here', '', 'P0303', 'confirmed', '{"engine speed": "742 rpm"}');
INSERT INTO codes_cleared (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, cleared_where, km_ago, day) VALUES ('bay', '019e8284-c5c0-7023-ba12-3266455407e7', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'as told', '', 'another shop', 120.0, '2026-05-02');
INSERT INTO jobs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, operation, places, minutes) VALUES ('bay', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-9598-2773d1d8b97e', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'on paper', 'sheet without values', 'adjust-valve-lash', '["engine"]', 150.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7025-8f05-276523e367da', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, 23.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7035-8823-108540607f68', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'other vehicle', '019e8284-c5c0-7013-a3fd-16496cedfd3b', '019e8284-c5c0-7017-8256-b6993e4e0c30', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, NULL);
INSERT INTO snapshots (site_id, id, version, recorded_at, recorded_by, case_id, why, rules_version, board, minutes) VALUES ('bay', '019e8284-c5c0-7037-91c8-f891c7e80f24', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'closing', 'r1', '{"rows": []}', 40.0);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701d-a4aa-83d0d52215b9', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', NULL, NULL);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701f-947c-4ed2fae93123', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', 5000.0, '019e8284-c5c0-7005-9598-2773d1d8b97e');
INSERT INTO closings (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, cause, place, deciding_result_id, introduced, introduced_by_job_id, minutes, note, left_open, left_open_why) VALUES ('bay', '019e8284-c5c0-7038-b941-dd3e9553d433', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'exhaust-lash-too-tight', 'cyl-3', '019e8284-c5c0-7025-8f05-276523e367da', 'by a job', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 190.0, 'Set again.', '["valve cover off"]', 'taken away as it stands');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702b-b927-11ce5033913a', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-9598-2773d1d8b97e', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'on paper', '', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 'measured-cold', 'not checked', '');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702d-b728-46a8831de7a4', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'seen here', '', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 'measured-cold', 'found wrong', '');
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-7029-a218-ed92d674d908', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 0, 'cover gasket', 'G-11', 'copy', '24-07', 1);
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-702a-ad12-b9df94c382ba', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 1, 'sealant', '', '', '', 0);
INSERT INTO defects (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, kind, place, words, job_id, photo) VALUES ('bay', '019e8284-c5c0-702f-937f-d5cc6eefb7f6', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'seen here', 'wiped dry', 'oil-in-plug-well', 'cyl-3', 'boot swollen', '019e8284-c5c0-7027-bc6a-5cbdb7a24d10', 'ab.jpg');
INSERT INTO put_back (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cover) VALUES ('bay', '019e8284-c5c0-7033-b83d-113eb4c1735f', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', '019e8284-c5c0-7007-ab16-993f4ec0634f', 'plugs-out');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 4, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7003-b73d-4d912f823aad', 'misfire-counted', 'engine', 'closed', 'not tried', '[]', '{}', '[]');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7017-8256-b6993e4e0c30', 3, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7011-8935-da1a5210e0bd', 'misfire-counted', 'engine', 'open', 'not tried', '[]', '{}', '[]');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-7040-96c8-3994217132d0', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'seen here', '', '2026-05-20', 0, 0, '["hot", "idle"]', 42.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-7046-888b-3e3c910087b2', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7015-b8e0-4f4d72bb0c47', '019e8284-c5c0-7017-8256-b6993e4e0c30', 'seen here', '', '2026-05-20', 1, 0, '["hot", "idle"]', 12.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO scans (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, monitors, codes, cleared) VALUES ('bay', '019e8284-c5c0-7042-9124-aad1961c23d9', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-ab16-993f4ec0634f', '019e8284-c5c0-7009-b6aa-8b46ccfbd76d', 'measured here', '', '2026-05-20', '{"misfire": "complete", "catalyst": "not complete"}', '{"P0303": "permanent"}', 1);
INSERT INTO proofs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cause, place, worked, note) VALUES ('bay', '019e8284-c5c0-7044-9652-6f4f8f29c940', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'The complaint came back.', '019e8284-c5c0-7017-8256-b6993e4e0c30', '019e8284-c5c0-7015-b8e0-4f4d72bb0c47', 'coil-failing', 'cyl-3', 0.8, 'Coil renewed.');
INSERT INTO returns (site_id, id, version, recorded_at, recorded_by, case_id, entry_id, state, cause, place) VALUES ('bay', '019e8284-c5c0-7048-aa80-f6f93bd36265', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8256-b6993e4e0c30', '019e8284-c5c0-7046-888b-3e3c910087b2', 'under proof', 'coil-failing', 'cyl-3');
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-703a-b94a-f54ff4f0cf15', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'another figure was given', 'labour rate', '', '', 90.0, '90');
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-703c-b05f-4b802ac457b4', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', 'labour rate', '', '', 95.0, '95');
COMMIT;
