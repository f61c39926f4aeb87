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
	traits JSON NOT NULL, 
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
CREATE INDEX ix_cases_site_id_state_recorded_at ON cases (site_id, state, recorded_at);
CREATE INDEX ix_cases_site_id_vehicle_id ON cases (site_id, vehicle_id);
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
INSERT INTO alembic_version (version_num) VALUES ('0003');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-7001-b895-8f424a5f7267', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-700f-80a9-06bc80289730', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO people (site_id, id, version, recorded_at, recorded_by, name, role, active) VALUES ('bay', 'ida', 1, '2026-06-01 09:30:00.000000', 'ida', 'Ida Lorne', 'technician', 1);
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7000-8823-935c07ad24e3', '2026-06-01 09:30:00.000000', 'ida', 'added a person', 'ida', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7002-9bf4-7466ba4d0d65', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-7001-b895-8f424a5f7267', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7004-b526-58c06adfc4c9', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7003-8290-fa2c66f26d69', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7006-b24e-1011493db71f', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7005-bd1f-2450f8affb7a', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7008-b5bb-16b5df2dbc36', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700a-9c61-18a6ed7a6f34', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7009-8e16-b3b38db423ed', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700c-a4b1-19f86b4dd3f5', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700b-81ff-4c64bdbff6a1', '{"case": "019e8284-c5c0-7009-8e16-b3b38db423ed", "visit": "019e8284-c5c0-7005-bd1f-2450f8affb7a"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700e-a001-9c69f4cd09fc', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700d-8ba3-07949465fe59', '{"case": "019e8284-c5c0-7009-8e16-b3b38db423ed", "visit": "019e8284-c5c0-7007-8c70-d7f8ff4152a6"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7010-ae07-77eeb524fb2a', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-700f-80a9-06bc80289730', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7012-9f03-b8aa67db70ea', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7011-88f3-ec3c01be34c0', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7014-84d9-ae6f1025f355', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7013-aa96-09294dc145cc', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7016-9485-320cdd95fcbc', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7015-90cf-7c60c523777d', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7018-8874-c13f6ecadfa9', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7017-85d2-de97f43117a7', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701a-81a6-34f30649e33b', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-7019-bc45-4d07fe93ff9d', '{"case": "019e8284-c5c0-7017-85d2-de97f43117a7", "visit": "019e8284-c5c0-7013-aa96-09294dc145cc"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701c-a551-76a739be2aba', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-701b-8ffc-594cc5e6705f', '{"case": "019e8284-c5c0-7017-85d2-de97f43117a7", "visit": "019e8284-c5c0-7015-90cf-7c60c523777d"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701e-8a2c-508c354e6591', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701d-ab8c-5686126dd532', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7020-a3e1-84d13e43d204', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701f-b692-6faff508f22e', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7022-8d70-28dabc072c0a', '2026-06-01 09:30:00.000000', 'ida', 'recorded a trouble code', '019e8284-c5c0-7021-82af-d948c7dfe35c', '{"said": "P0303"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7024-9d55-7e99e96db7e8', '2026-06-01 09:30:00.000000', 'ida', 'recorded that codes had been cleared', '019e8284-c5c0-7023-a214-4954b39444aa', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7026-90e1-6afc5234840b', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7025-90e9-4b40c9015669', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7028-a51b-8a604b505b76', '2026-06-01 09:30:00.000000', 'ida', 'recorded a job', '019e8284-c5c0-7027-aa82-9c9d3746d44d', '{"said": "adjust-valve-lash"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702c-af3b-ecdf5c629b1e', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702b-be20-a11b5bdc45f4', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702e-9de5-d6d73bbaf8dd', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702d-baf2-8357622e2170', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7030-811a-a47f198c28a7', '2026-06-01 09:30:00.000000', 'ida', 'recorded a defect', '019e8284-c5c0-702f-9372-ed9507ac1547', '{"said": "oil-in-plug-well"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7031-8bfa-a7e6fad7452c', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-8e16-b3b38db423ed', '{"covers": ["plugs-out"]}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7032-9c8b-67ebfd268b08', '2026-06-01 09:30:00.000000', 'ida', 'said what is open', '019e8284-c5c0-7009-8e16-b3b38db423ed', '{"covers": []}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7034-aac5-d7f963cc320a', '2026-06-01 09:30:00.000000', 'ida', 'put a cover back', '019e8284-c5c0-7033-b009-2bfdea1ea09f', '{"cover": "plugs-out"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7036-8ba4-50901f05b82f', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7035-9284-709feb73fc50', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7039-8128-ec65f9e32107', '2026-06-01 09:30:00.000000', 'ida', 'closed a case', '019e8284-c5c0-7038-9681-537898eb5d0c', '{"case": "019e8284-c5c0-7009-8e16-b3b38db423ed"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703a-b2b7-bfc8dfcf8f4d', '2026-06-01 09:30:00.000000', 'ida', 'struck out a result', '019e8284-c5c0-7035-9284-709feb73fc50', '{"why": "other vehicle"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703c-a39f-3838ac926494', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-703b-8cd3-78a456cf55a6', '{"came_back": false}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-703e-b233-bdb8fc18502d', '2026-06-01 09:30:00.000000', 'ida', 'recorded a scan after a repair', '019e8284-c5c0-703d-819b-c42aebd69204', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7040-a733-5dbcad7af4bc', '2026-06-01 09:30:00.000000', 'ida', 'put a case under proof', '019e8284-c5c0-703f-ae68-8213316ab7c7', '{"case": "019e8284-c5c0-7017-85d2-de97f43117a7"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7042-abaa-7a67cd26c986', '2026-06-01 09:30:00.000000', 'ida', 'recorded a run after a repair', '019e8284-c5c0-7041-b10d-819488123015', '{"came_back": true}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7044-9da1-81cacebcaa45', '2026-06-01 09:30:00.000000', 'ida', 'the complaint came back', '019e8284-c5c0-7043-9159-62d0eb6ce4af', '{"case": "019e8284-c5c0-7017-85d2-de97f43117a7"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7045-9285-acd1d71d7b7b', '2026-06-01 09:30:00.000000', 'ida', 'reopened a case', '019e8284-c5c0-7017-85d2-de97f43117a7', '{"why": "The complaint came back."}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits) VALUES ('bay', '019e8284-c5c0-7003-8290-fa2c66f26d69', 1, '2026-06-01 09:30:00.000000', 'ida', 'grey estate', 'KX-41 QP', 'KX41QP', '', '019e8284-c5c0-7001-b895-8f424a5f7267', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits) VALUES ('bay', '019e8284-c5c0-7011-88f3-ec3c01be34c0', 1, '2026-06-01 09:30:00.000000', 'ida', 'blue van', 'KX-42 RT', 'KX42RT', '', '019e8284-c5c0-700f-80a9-06bc80289730', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (1, 'bay', '019e8284-c5c0-7003-8290-fa2c66f26d69', 'KX-41 QP KX41QP', '', 'grey estate', 'Marlo Vett', 'W-7 W7 R-2041 R2041');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (2, 'bay', '019e8284-c5c0-7011-88f3-ec3c01be34c0', 'KX-42 RT KX42RT', '', 'blue van', 'Marlo Vett', 'W-7 W7 R-2042 R2042');
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7005-bd1f-2450f8affb7a', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-8290-fa2c66f26d69', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-8290-fa2c66f26d69', 1, 1, '', 'R-2041', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7013-aa96-09294dc145cc', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-88f3-ec3c01be34c0', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7015-90cf-7c60c523777d', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-88f3-ec3c01be34c0', 1, 1, '', 'R-2042', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700b-81ff-4c64bdbff6a1', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-8e16-b3b38db423ed', '019e8284-c5c0-7005-bd1f-2450f8affb7a');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700d-8ba3-07949465fe59', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-8e16-b3b38db423ed', '019e8284-c5c0-7007-8c70-d7f8ff4152a6');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-7019-bc45-4d07fe93ff9d', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-85d2-de97f43117a7', '019e8284-c5c0-7013-aa96-09294dc145cc');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-701b-8ffc-594cc5e6705f', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-85d2-de97f43117a7', '019e8284-c5c0-7015-90cf-7c60c523777d');
INSERT INTO codes (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, code, state, freeze_frame) VALUES ('bay', '019e8284-c5c0-7021-82af-d948c7dfe35c', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'measured here', '', 'P0303', 'confirmed', '{"engine speed": "742 rpm"}');
INSERT INTO codes_cleared (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, cleared_where, km_ago, day) VALUES ('bay', '019e8284-c5c0-7023-a214-4954b39444aa', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'as told', '', 'another shop', 120.0, '2026-05-02');
INSERT INTO jobs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, operation, places, minutes) VALUES ('bay', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-bd1f-2450f8affb7a', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'on paper', 'sheet without values', 'adjust-valve-lash', '["engine"]', 150.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7025-90e9-4b40c9015669', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, 23.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7035-9284-709feb73fc50', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'other vehicle', '019e8284-c5c0-7013-aa96-09294dc145cc', '019e8284-c5c0-7017-85d2-de97f43117a7', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, NULL);
INSERT INTO snapshots (site_id, id, version, recorded_at, recorded_by, case_id, why, rules_version, board, minutes) VALUES ('bay', '019e8284-c5c0-7037-8883-58d2473fe85a', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'closing', 'r1', '{"rows": []}', 40.0);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701d-ab8c-5686126dd532', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', NULL, NULL);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701f-b692-6faff508f22e', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', 5000.0, '019e8284-c5c0-7005-bd1f-2450f8affb7a');
INSERT INTO closings (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, cause, place, deciding_result_id, introduced, introduced_by_job_id, minutes, note, left_open, left_open_why) VALUES ('bay', '019e8284-c5c0-7038-9681-537898eb5d0c', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'exhaust-lash-too-tight', 'cyl-3', '019e8284-c5c0-7025-90e9-4b40c9015669', 'by a job', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 190.0, 'Set again.', '["valve cover off"]', 'taken away as it stands');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702b-be20-a11b5bdc45f4', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-bd1f-2450f8affb7a', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'on paper', '', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 'measured-cold', 'not checked', '');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state, photo) VALUES ('bay', '019e8284-c5c0-702d-baf2-8357622e2170', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'seen here', '', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 'measured-cold', 'found wrong', '');
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-7029-8579-e236caa9c550', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 0, 'cover gasket', 'G-11', 'copy', '24-07', 1);
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-702a-a024-e6cce5fe39a1', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 1, 'sealant', '', '', '', 0);
INSERT INTO defects (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, kind, place, words, job_id, photo) VALUES ('bay', '019e8284-c5c0-702f-9372-ed9507ac1547', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'seen here', 'wiped dry', 'oil-in-plug-well', 'cyl-3', 'boot swollen', '019e8284-c5c0-7027-aa82-9c9d3746d44d', 'ab.jpg');
INSERT INTO put_back (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cover) VALUES ('bay', '019e8284-c5c0-7033-b009-2bfdea1ea09f', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-8e16-b3b38db423ed', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', 'plugs-out');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7009-8e16-b3b38db423ed', 4, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7003-8290-fa2c66f26d69', 'misfire-counted', 'engine', 'closed', 'not tried', '[]', '{}', '[]');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7017-85d2-de97f43117a7', 3, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7011-88f3-ec3c01be34c0', 'misfire-counted', 'engine', 'open', 'not tried', '[]', '{}', '[]');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-703b-8cd3-78a456cf55a6', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'seen here', '', '2026-05-20', 0, 0, '["hot", "idle"]', 42.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO proof_runs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, came_back, ordinary, conditions, km, minutes, starts, cycles, route) VALUES ('bay', '019e8284-c5c0-7041-b10d-819488123015', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7015-90cf-7c60c523777d', '019e8284-c5c0-7017-85d2-de97f43117a7', 'seen here', '', '2026-05-20', 1, 0, '["hot", "idle"]', 12.0, NULL, 3.0, NULL, 'by-pass');
INSERT INTO scans (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, day, monitors, codes, cleared) VALUES ('bay', '019e8284-c5c0-703d-819b-c42aebd69204', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-8c70-d7f8ff4152a6', '019e8284-c5c0-7009-8e16-b3b38db423ed', 'measured here', '', '2026-05-20', '{"misfire": "complete", "catalyst": "not complete"}', '{"P0303": "permanent"}', 1);
INSERT INTO proofs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, visit_id, cause, place, worked, note) VALUES ('bay', '019e8284-c5c0-703f-ae68-8213316ab7c7', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'The complaint came back.', '019e8284-c5c0-7017-85d2-de97f43117a7', '019e8284-c5c0-7015-90cf-7c60c523777d', 'coil-failing', 'cyl-3', 0.8, 'Coil renewed.');
INSERT INTO returns (site_id, id, version, recorded_at, recorded_by, case_id, entry_id, state, cause, place) VALUES ('bay', '019e8284-c5c0-7043-9159-62d0eb6ce4af', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-85d2-de97f43117a7', '019e8284-c5c0-7041-b10d-819488123015', 'under proof', 'coil-failing', 'cyl-3');
COMMIT;
