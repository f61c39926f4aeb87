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
CREATE TABLE cases (
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
	CONSTRAINT ck_cases_state_word CHECK (state IN ('open', 'closed')), 
	CONSTRAINT fk_cases_vehicle_id_vehicles FOREIGN KEY(site_id, vehicle_id) REFERENCES vehicles (site_id, id)
);
CREATE INDEX ix_cases_site_id_state_recorded_at ON cases (site_id, state, recorded_at);
CREATE INDEX ix_cases_site_id_vehicle_id ON cases (site_id, vehicle_id);
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
	note VARCHAR NOT NULL, 
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
	state VARCHAR NOT NULL, 
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
INSERT INTO alembic_version (version_num) VALUES ('0002');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-7001-b222-2984177dd043', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO customers (site_id, id, version, recorded_at, recorded_by, name, name_key, phone) VALUES ('bay', '019e8284-c5c0-700f-b6a8-2f846ac358e0', 1, '2026-06-01 09:30:00.000000', 'ida', 'Marlo Vett', 'marlo vett', '555 0101');
INSERT INTO people (site_id, id, version, recorded_at, recorded_by, name, role, active) VALUES ('bay', 'ida', 1, '2026-06-01 09:30:00.000000', 'ida', 'Ida Lorne', 'technician', 1);
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7000-859c-9e8aaa2dc084', '2026-06-01 09:30:00.000000', 'ida', 'added a person', 'ida', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7002-950b-0f138ae7e50f', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-7001-b222-2984177dd043', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7004-ad1b-c66c1033ccbb', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7003-b81d-295193e08691', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7006-9ac7-19f90cd1b4e1', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7005-88a9-a48c97353ce4', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7008-ad01-0d678db60414', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7007-823e-359b343d5152', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700a-abe0-eca0a50c9b39', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700c-9e39-6fb48398e7be', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700b-8ba8-7ffd4bc38a5f', '{"case": "019e8284-c5c0-7009-a5ac-0cc5d43b4008", "visit": "019e8284-c5c0-7005-88a9-a48c97353ce4"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-700e-8353-08cf14306b1a', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-700d-a82d-5920940dc997', '{"case": "019e8284-c5c0-7009-a5ac-0cc5d43b4008", "visit": "019e8284-c5c0-7007-823e-359b343d5152"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7010-a512-a5f9e37e64ad', '2026-06-01 09:30:00.000000', 'ida', 'added a customer', '019e8284-c5c0-700f-b6a8-2f846ac358e0', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7012-936a-ee94f555fdee', '2026-06-01 09:30:00.000000', 'ida', 'added a vehicle', '019e8284-c5c0-7011-a02c-d6af4c492cf3', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7014-b11b-a762d3e89217', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7013-af77-f2ecfbb77523', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7016-92f8-4c694ad6d356', '2026-06-01 09:30:00.000000', 'ida', 'added a visit', '019e8284-c5c0-7015-90a1-99bf6f9d73e0', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7018-8af5-1f31f4cc6f14', '2026-06-01 09:30:00.000000', 'ida', 'opened a case', '019e8284-c5c0-7017-a3b4-e8fa4f963881', '{"complaint": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701a-b8bb-ff4cc63ee1d7', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-7019-8859-b299f8086bd5', '{"case": "019e8284-c5c0-7017-a3b4-e8fa4f963881", "visit": "019e8284-c5c0-7013-af77-f2ecfbb77523"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701c-b841-f0ddece97b4d', '2026-06-01 09:30:00.000000', 'ida', 'joined a visit to a case', '019e8284-c5c0-701b-b09f-3b806e0a8577', '{"case": "019e8284-c5c0-7017-a3b4-e8fa4f963881", "visit": "019e8284-c5c0-7015-90a1-99bf6f9d73e0"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-701e-bdce-177ed5b1d489', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701d-9340-740b6ad33f11', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7020-80fd-9d974262d9bf', '2026-06-01 09:30:00.000000', 'ida', 'recorded a symptom', '019e8284-c5c0-701f-804d-23a835b5789e', '{"said": "misfire-counted"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7022-b72c-b046581fb3b6', '2026-06-01 09:30:00.000000', 'ida', 'recorded a trouble code', '019e8284-c5c0-7021-9888-7716e224fbd1', '{"said": "P0303"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7024-ad2a-d4a8fd7aacf0', '2026-06-01 09:30:00.000000', 'ida', 'recorded that codes had been cleared', '019e8284-c5c0-7023-a5a1-9382f9a1d9bd', '{}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7026-abde-a29e664e515d', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-7025-addd-9eb566adab74', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7028-a904-cf4b4d3986eb', '2026-06-01 09:30:00.000000', 'ida', 'recorded a job', '019e8284-c5c0-7027-ac69-3ea03561734c', '{"said": "adjust-valve-lash"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702c-9a16-564d77f884a9', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702b-92ed-d8c6e1122eff', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-702e-87c8-1f3f1f70f0dd', '2026-06-01 09:30:00.000000', 'ida', 'recorded a duty', '019e8284-c5c0-702d-a82f-c3b79453eac3', '{"said": "measured-cold"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7030-a15c-0194ea9c17d7', '2026-06-01 09:30:00.000000', 'ida', 'recorded a result', '019e8284-c5c0-702f-9bad-174150d26b08', '{"said": "leak-down"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7033-a0c8-8b72d9338c18', '2026-06-01 09:30:00.000000', 'ida', 'closed a case', '019e8284-c5c0-7032-b78a-bb9d07aedc01', '{"case": "019e8284-c5c0-7009-a5ac-0cc5d43b4008"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7035-b1a6-170b8c06df9b', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-7034-9ef1-f37cf2b262ed', '{"kind": "labour rate", "about": "", "words": "90"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7037-b7ce-f3235f5bbd8e', '2026-06-01 09:30:00.000000', 'ida', 'set a figure', '019e8284-c5c0-7036-8b14-2060b8b2dee6', '{"kind": "labour rate", "about": "", "words": "95"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7038-a365-d3d7bb3cdbff', '2026-06-01 09:30:00.000000', 'ida', 'named a vehicle''s family', '019e8284-c5c0-7003-b81d-295193e08691', '{"family": "big estate"}');
INSERT INTO trail (site_id, id, at, who, what, entry_id, details) VALUES ('bay', '019e8284-c5c0-7039-abad-760daa0834a6', '2026-06-01 09:30:00.000000', 'ida', 'struck out a result', '019e8284-c5c0-702f-9bad-174150d26b08', '{"why": "other vehicle"}');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7003-b81d-295193e08691', 2, '2026-06-01 09:30:00.000000', 'ida', 'grey estate', 'KX-41 QP', 'KX41QP', '', '019e8284-c5c0-7001-b222-2984177dd043', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', 'big estate');
INSERT INTO vehicles (site_id, id, version, recorded_at, recorded_by, name, plate, plate_key, vin, customer_id, banks, firing_order, traits, family) VALUES ('bay', '019e8284-c5c0-7011-a02c-d6af4c492cf3', 1, '2026-06-01 09:30:00.000000', 'ida', 'blue van', 'KX-42 RT', 'KX42RT', '', '019e8284-c5c0-700f-b6a8-2f846ac358e0', '[[1, 3, 5], [2, 4, 6]]', '[1, 2, 3, 4, 5, 6]', '{"fuel": "petrol", "front brakes": "disc"}', '');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 2, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7003-b81d-295193e08691', 'misfire-counted', 'engine', 'closed', 'not tried', '[]', '{}', '[]');
INSERT INTO cases (site_id, id, version, recorded_at, recorded_by, vehicle_id, complaint, complaint_place, state, reproduced, reproduced_conditions, may_drive, open_covers) VALUES ('bay', '019e8284-c5c0-7017-a3b4-e8fa4f963881', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7011-a02c-d6af4c492cf3', 'misfire-counted', 'engine', 'open', 'not tried', '[]', '{}', '[]');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (1, 'bay', '019e8284-c5c0-7003-b81d-295193e08691', 'KX-41 QP KX41QP', '', 'grey estate', 'Marlo Vett', 'W-7 W7 R-2041 R2041');
INSERT INTO vehicle_words (number, site_id, vehicle_id, plate, vin, name, customer, orders) VALUES (2, 'bay', '019e8284-c5c0-7011-a02c-d6af4c492cf3', 'KX-42 RT KX42RT', '', 'blue van', 'Marlo Vett', 'W-7 W7 R-2042 R2042');
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7005-88a9-a48c97353ce4', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-b81d-295193e08691', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7007-823e-359b343d5152', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7003-b81d-295193e08691', 1, 1, '', 'R-2041', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7013-af77-f2ecfbb77523', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-a02c-d6af4c492cf3', 0, 0, 'Weir Garage', 'W-7', '2026-03-01', '', '81000', 'km', 81000.0, '', '410.00', NULL);
INSERT INTO visits (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, vehicle_id, position, here, shop, order_number, day, when_words, odometer_typed, odometer_unit, odometer_km, complaint_words, cost, minutes) VALUES ('bay', '019e8284-c5c0-7015-90a1-99bf6f9d73e0', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7011-a02c-d6af4c492cf3', 1, 1, '', 'R-2042', '2026-05-01', '', '82000', 'km', 82000.0, 'shakes when hot', '', NULL);
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700b-8ba8-7ffd4bc38a5f', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', '019e8284-c5c0-7005-88a9-a48c97353ce4');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-700d-a82d-5920940dc997', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', '019e8284-c5c0-7007-823e-359b343d5152');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-7019-8859-b299f8086bd5', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-a3b4-e8fa4f963881', '019e8284-c5c0-7013-af77-f2ecfbb77523');
INSERT INTO case_visits (site_id, id, version, recorded_at, recorded_by, case_id, visit_id) VALUES ('bay', '019e8284-c5c0-701b-b09f-3b806e0a8577', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7017-a3b4-e8fa4f963881', '019e8284-c5c0-7015-90a1-99bf6f9d73e0');
INSERT INTO codes (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, code, state, freeze_frame) VALUES ('bay', '019e8284-c5c0-7021-9888-7716e224fbd1', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'measured here', '', 'P0303', 'confirmed', '{"engine speed": "742 rpm"}');
INSERT INTO codes_cleared (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, cleared_where, km_ago, day) VALUES ('bay', '019e8284-c5c0-7023-a5a1-9382f9a1d9bd', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'as told', '', 'another shop', 120.0, '2026-05-02');
INSERT INTO jobs (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, operation, places, minutes) VALUES ('bay', '019e8284-c5c0-7027-ac69-3ea03561734c', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-88a9-a48c97353ce4', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'on paper', 'sheet without values', 'adjust-valve-lash', '["engine"]', 150.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-7025-addd-9eb566adab74', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, 23.0);
INSERT INTO results (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, test, place, outcome, reading_typed, reading_value, reading_unit, reading_resolution, low, high, specification_source, weight_abnormal, weight_normal, situations, after_work, minutes) VALUES ('bay', '019e8284-c5c0-702f-9bad-174150d26b08', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'other vehicle', '019e8284-c5c0-7013-af77-f2ecfbb77523', '019e8284-c5c0-7017-a3b4-e8fa4f963881', 'measured here', 'air heard nowhere', 'leak-down', 'cyl-3', 'uncertain', '19,5 %', 19.5, '%', 0.5, NULL, 20.0, 'common practice', 0.4, 0.6, '{"engine-cold": true}', 1, NULL);
INSERT INTO snapshots (site_id, id, version, recorded_at, recorded_by, case_id, why, rules_version, board, minutes) VALUES ('bay', '019e8284-c5c0-7031-94cc-5d7ae582df9e', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'closing', 'r1', '{"rows": []}', 40.0);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701d-9340-740b6ad33f11', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', NULL, NULL);
INSERT INTO symptoms (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, symptom, place, presence, conditions, absent_for_km, after_visit_id) VALUES ('bay', '019e8284-c5c0-701f-804d-23a835b5789e', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'seen here', '', 'misfire-counted', 'cyl-3', 'present', '["hot", "idle"]', 5000.0, '019e8284-c5c0-7005-88a9-a48c97353ce4');
INSERT INTO closings (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, case_id, cause, place, deciding_result_id, introduced, introduced_by_job_id, minutes, note) VALUES ('bay', '019e8284-c5c0-7032-b78a-bb9d07aedc01', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'exhaust-lash-too-tight', 'cyl-3', '019e8284-c5c0-7025-addd-9eb566adab74', 'by a job', '019e8284-c5c0-7027-ac69-3ea03561734c', 190.0, 'Set again.');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state) VALUES ('bay', '019e8284-c5c0-702b-92ed-d8c6e1122eff', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7005-88a9-a48c97353ce4', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'on paper', '', '019e8284-c5c0-7027-ac69-3ea03561734c', 'measured-cold', 'not checked');
INSERT INTO duties (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, visit_id, case_id, source, note, job_id, duty, state) VALUES ('bay', '019e8284-c5c0-702d-a82f-c3b79453eac3', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', '019e8284-c5c0-7007-823e-359b343d5152', '019e8284-c5c0-7009-a5ac-0cc5d43b4008', 'seen here', '', '019e8284-c5c0-7027-ac69-3ea03561734c', 'measured-cold', 'found wrong');
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-7029-be2c-358b310d2205', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-ac69-3ea03561734c', 0, 'cover gasket', 'G-11', 'copy', '24-07', 1);
INSERT INTO parts (site_id, id, version, recorded_at, recorded_by, job_id, position, name, number, kind, date_code, receipt) VALUES ('bay', '019e8284-c5c0-702a-a00b-4eb9c1607c0e', 1, '2026-06-01 09:30:00.000000', 'ida', '019e8284-c5c0-7027-ac69-3ea03561734c', 1, 'sealant', '', '', '', 0);
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-7034-9ef1-f37cf2b262ed', 2, '2026-06-01 09:30:00.000000', 'ida', '2026-06-01 09:30:00.000000', 'ida', 'another figure was given', 'labour rate', '', '', 90.0, '90');
INSERT INTO figures (site_id, id, version, recorded_at, recorded_by, voided_at, voided_by, void_reason, kind, about, family, value, words) VALUES ('bay', '019e8284-c5c0-7036-8b14-2060b8b2dee6', 1, '2026-06-01 09:30:00.000000', 'ida', NULL, NULL, '', 'labour rate', '', '', 95.0, '95');
COMMIT;
