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
	CONSTRAINT ck_cases_reproduced_word CHECK (reproduced IN ('yes', 'no', 'not tried')), 
	CONSTRAINT fk_cases_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id), 
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
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-7001-a157-ade281f02c75', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-700f-8901-6901e40c62d8', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO people (site_id, id, version, recorded_at, recorded_by, name, role, active) VALUES ('bay', 'ida', 1, '2026-06-01 09:30:00.000000', 'ida', 'Ida Lorne', 'technician', 1);
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7000-b7ed-293d3083dc93', '2026-06-01 09:30:00.000000', 'ida', 'added a person', 'ida', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7002-99b6-b7508041f805', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-7001-a157-ade281f02c75', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7004-8eea-2ebb34618c81', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7003-aa1f-015c04972fd4', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7006-8009-f57529baf932', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7005-b2e5-7459bb6200f2', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7008-82eb-e3e4a8a04d18', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7007-804d-08517a38cc54', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700a-a52b-587b098798e3', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7009-b34e-06bc58274822', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700c-9693-248e6570298a', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700b-85b7-4bf3649f9bf2', '{"case": "019e8284-c5c0-7009-b34e-06bc58274822", "visit": "019e8284-c5c0-7005-b2e5-7459bb6200f2"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700e-aec6-b9f5d5bf2bd6', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700d-b740-fc2660a2103d', '{"case": "019e8284-c5c0-7009-b34e-06bc58274822", "visit": "019e8284-c5c0-7007-804d-08517a38cc54"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7010-a1a3-0270a185b87f', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-700f-8901-6901e40c62d8', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7012-9c99-2f5353f16d31', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7011-94b3-0c9f04d27934', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7014-ba46-152fe0ad93c1', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7013-9ff6-ac5b77c7da56', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7016-9b15-f3b624fcc0c5', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7015-800a-223188c5d10b', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7018-b599-22de15c6398a', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701a-8a8f-5be3db7f41f7', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-7019-9549-fabba29cbc6f', '{"case": "019e8284-c5c0-7017-8a1c-a5ad26e5158b", "visit": "019e8284-c5c0-7013-9ff6-ac5b77c7da56"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701c-a0e2-6d0940126d07', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-701b-945d-6cc336d44e85', '{"case": "019e8284-c5c0-7017-8a1c-a5ad26e5158b", "visit": "019e8284-c5c0-7015-800a-223188c5d10b"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701e-8068-9fe13d6bcd5d', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701d-aa58-8ef6ecf46de8', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7020-911b-cd35efc3c0c7', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701f-b589-7e3323bd8f80', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7022-a9c5-9c6c35bd8e8a', '2026-06-01 09:30:00.000000', 'ida', 'recorded a trouble code', '019e8284-c5c0-7021-80ce-356094769c67', '{"said": "P0303"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7024-b85e-6bf3cddbb0aa', '2026-06-01 09:30:00.000000', 'ida', 'recorded that codes had been cleared', '019e8284-c5c0-7023-8b49-17b4028f62f3', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7026-bd12-d718df0ff445', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7025-80c4-3d68180ea06d', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7028-b00c-eb4504f75e46', '2026-06-01 09:30:00.000000', 'ida', 'recorded a job', '019e8284-c5c0-7027-8ade-f013bdcf230d', '{"said": "adjust-valve-lash"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702c-aa60-b12cb1244221', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702b-8739-539754379593', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702e-9f8f-065be314eddd', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702d-99d5-f02dfbc2b5b0', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7030-a7c2-7bf0c2c3d012', '2026-06-01 09:30:00.000000', 'ida', 'recorded a defect', '019e8284-c5c0-702f-84ea-6cc3de3559c2', '{"said": "oil-in-plug-well"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7031-a25c-d623cfbf3412', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b34e-06bc58274822', '{"covers": ["plugs-out"]}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7032-9a05-6714f6be087b', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-b34e-06bc58274822', '{"covers": []}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7034-b870-d761b22239df', '2026-06-01 09:30:00.000000', 'ida', 'put a cover back', '019e8284-c5c0-7033-b6d8-82598f645c9a', '{"cover": "plugs-out"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7036-840e-bf0dbe3b9855', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7035-87ff-da25d9a25a89', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7039-9396-325b7c4f383c', '2026-06-01 09:30:00.000000', 'ida', 'closed a case', '019e8284-c5c0-7038-9cf6-87d908dcf601', '{"case": "019e8284-c5c0-7009-b34e-06bc58274822"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703b-a0ad-d96c120f2187', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-703a-a855-4a8d6b3051bb', '{"kind": "labour rate", "about": "", "words": "90"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703d-9338-8bcf79f86713', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-703c-ab81-42c83c58d807', '{"kind": "labour rate", "about": "", "words": "95"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703e-8e25-aaaecf8ea4ae', '2026-06-01 09:30:00.000000', 'ida', 'named a vehicle''s family', '019e8284-c5c0-7003-aa1f-015c04972fd4', '{"family": "big estate"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703f-9830-53c418fac107', '2026-06-01 09:30:00.000000', 'ida', 'struck out a result', '019e8284-c5c0-7035-87ff-da25d9a25a89', '{"why": "other vehicle"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7041-886f-3ca077979af2', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-7040-a08e-7524effb39da', '{"came_back": false}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7043-a915-a3c0c4fdd856', '2026-06-01 09:30:00.000000', 'ida', 'recorded a scan after a repair', '019e8284-c5c0-7042-8463-16a2feed5449', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7045-9c63-45749d8ebd8b', '2026-06-01 09:30:00.000000', 'ida', 'put a case under proof', '019e8284-c5c0-7044-a810-53d18721848e', '{"case": "019e8284-c5c0-7017-8a1c-a5ad26e5158b"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7047-a098-6bf5782bbdd6', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-7046-8702-fda2e84ddafb', '{"came_back": true}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7049-9edc-ef26b1094327', '2026-06-01 09:30:00.000000', 'ida', 'the complaint came back', '019e8284-c5c0-7048-af4a-d2f18079a0de', '{"case": "019e8284-c5c0-7017-8a1c-a5ad26e5158b"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-704a-aec5-763d378be953', '2026-06-01 09:30:00.000000', 'ida', 'reopened a case', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '{"why": "The complaint came back."}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7003-aa1f-015c04972fd4', 2, '2026-06-01 09:30:00.000000', 'ida', 'grey estate', 'KX-41 QP', 'KX41QP', '', '019e8284-c5c0-7001-a157-ade281f02c75', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', 'big estate');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7011-94b3-0c9f04d27934', 1, '2026-06-01 09:30:00.000000', 'ida', 'blue van', 'KX-42 RT', 'KX42RT', '', '019e8284-c5c0-700f-8901-6901e40c62d8', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', '');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (1, 'bay', '019e8284-c5c0-7003-aa1f-015c04972fd4', 'KX-41 QP KX41QP', '', 'grey estate', 'Marlo Vett', 'W-7 W7 R-2041 R2041');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (2, 'bay', '019e8284-c5c0-7011-94b3-0c9f04d27934', 'KX-42 RT KX42RT', '', 'blue van', 'Marlo Vett', 'W-7 W7 R-2042 R2042');
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7005-b2e5-7459bb6200f2', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-aa1f-015c04972fd4', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7007-804d-08517a38cc54', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-aa1f-015c04972fd4', 1, 1, '', 'R-2041', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7013-9ff6-ac5b77c7da56', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-94b3-0c9f04d27934', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7015-800a-223188c5d10b', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-94b3-0c9f04d27934', 1, 1, '', 'R-2042', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700b-85b7-4bf3649f9bf2', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b34e-06bc58274822', '019e8284-c5c0-7005-b2e5-7459bb6200f2');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700d-b740-fc2660a2103d', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b34e-06bc58274822', '019e8284-c5c0-7007-804d-08517a38cc54');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-7019-9549-fabba29cbc6f', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '019e8284-c5c0-7013-9ff6-ac5b77c7da56');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-701b-945d-6cc336d44e85', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '019e8284-c5c0-7015-800a-223188c5d10b');
INSERT INTO codes (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, code, state, freeze_frame) VALUES ('bay', '019e8284-c5c0-7021-80ce-356094769c67', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'measured here', '', 'P0303', 'confirmed', '{"engine speed": "742 rpm"}');
INSERT INTO codes_cleared (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, cleared_where, km_ago, day) VALUES ('bay', '019e8284-c5c0-7023-8b49-17b4028f62f3', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'as told', '', 'another shop', 120.0, '2026-05-02');
INSERT INTO jobs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, operation, places, minutes) VALUES ('bay', '019e8284-c5c0-7027-8ade-f013bdcf230d', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-b2e5-7459bb6200f2', '019e8284-c5c0-7009-b34e-06bc58274822', 'on paper', 'sheet without values', 'adjust-valve-lash', '["engine"]', 150.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7025-80c4-3d68180ea06d', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, 23.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7035-87ff-da25d9a25a89', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'other vehicle', '019e8284-c5c0-7013-9ff6-ac5b77c7da56', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, NULL);
INSERT INTO snapshots (site_id, id, version, recorded_at, recorded_by, case_id, why, rules_version, board, minutes) VALUES ('bay', '019e8284-c5c0-7037-afec-a929af859d1d', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-b34e-06bc58274822', 'closing', 'r1', '{"rows": []}', 40.0);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701d-aa58-8ef6ecf46de8', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', NULL, NULL);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701f-b589-7e3323bd8f80', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', 5000.0, '019e8284-c5c0-7005-b2e5-7459bb6200f2');
INSERT INTO closings (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, cause, place, deciding_result_id, introduced, introduced_by_job_id, minutes, note, left_open, left_open_why) VALUES ('bay', '019e8284-c5c0-7038-9cf6-87d908dcf601', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b34e-06bc58274822', 'exhaust-lash-too-tight', 'cyl-3', '019e8284-c5c0-7025-80c4-3d68180ea06d', 'by a job', '019e8284-c5c0-7027-8ade-f013bdcf230d', 190.0, 'Set again.', '["valve cover off"]', 'taken away as it stands');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702b-8739-539754379593', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-b2e5-7459bb6200f2', '019e8284-c5c0-7009-b34e-06bc58274822', 'on paper', '', '019e8284-c5c0-7027-8ade-f013bdcf230d', 'measured-cold', 'not checked', '');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702d-99d5-f02dfbc2b5b0', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'seen here', '', '019e8284-c5c0-7027-8ade-f013bdcf230d', 'measured-cold', 'found wrong', '');
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-7029-9ee2-90129e607fb3', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-8ade-f013bdcf230d', 0, 'cover gasket', 'G-11', 'copy', '24-07', 1);
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-702a-8b31-756debb4b132', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-8ade-f013bdcf230d', 1, 'sealant', '', '', '', 0);
INSERT INTO defects (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, kind, place, words, job_id, photo) VALUES ('bay', '019e8284-c5c0-702f-84ea-6cc3de3559c2', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'seen here', 'wiped dry', 'oil-in-plug-well', 'cyl-3', 'boot swollen', '019e8284-c5c0-7027-8ade-f013bdcf230d', 'ab.jpg');
INSERT INTO put_back (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cover) VALUES ('bay', '019e8284-c5c0-7033-b6d8-82598f645c9a', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-b34e-06bc58274822', '019e8284-c5c0-7007-804d-08517a38cc54', 'plugs-out');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7009-b34e-06bc58274822', 4, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7003-aa1f-015c04972fd4', 'misfire-counted', 'engine', 'closed', 'not tried', '[]', '{}', '[]');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', 3, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7011-94b3-0c9f04d27934', 'misfire-counted', 'engine', 'open', 'not tried', '[]', '{}', '[]');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-7040-a08e-7524effb39da', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'seen here', '', '2026-05-20', 0, 0, '["hot", "idle"]', 42.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-7046-8702-fda2e84ddafb', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7015-800a-223188c5d10b', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', 'seen here', '', '2026-05-20', 1, 0, '["hot", "idle"]', 12.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO scans (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, monitors, codes, cleared) VALUES ('bay', '019e8284-c5c0-7042-8463-16a2feed5449', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-804d-08517a38cc54', '019e8284-c5c0-7009-b34e-06bc58274822', 'measured here', '', '2026-05-20', '{"misfire": "complete", "catalyst": "not complete"}', '{"P0303": "permanent"}', 1);
INSERT INTO proofs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cause, place, worked, note) VALUES ('bay', '019e8284-c5c0-7044-a810-53d18721848e', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'The complaint came back.', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '019e8284-c5c0-7015-800a-223188c5d10b', 'coil-failing', 'cyl-3', 0.8, 'Coil renewed.');
INSERT INTO returns (site_id, id, version, recorded_at, recorded_by, case_id, entry_id, state, cause, place) VALUES ('bay', '019e8284-c5c0-7048-af4a-d2f18079a0de', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-8a1c-a5ad26e5158b', '019e8284-c5c0-7046-8702-fda2e84ddafb', 'under proof', 'coil-failing', 'cyl-3');
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-703a-a855-4a8d6b3051bb', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'another figure was given', 'labour rate', '', '', 90.0, '90');
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-703c-ab81-42c83c58d807', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', 'labour rate', '', '', 95.0, '95');
COMMIT;
