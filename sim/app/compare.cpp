#include "sim/compare.hpp"

#include <iostream>
#include <map>

#include <fmt/format.h>

#include "cases/reader.hpp"
#include "cases/written_values.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/compare_text.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/terminal.hpp"
#include "sim/numerics/error.hpp"
#include "sim/run.hpp"
#include "viz/compare_page.hpp"
#include "viz/page_file.hpp"

namespace drumlin::app {
namespace {

constexpr std::size_t fewest = 2;
constexpr std::size_t most = 6;  // more do not fit beside each other

void expect_cases(const CompareCommand& command) {
  if (command.case_files.size() < fewest || command.case_files.size() > most)
    throw InputError(fmt::format("compare takes {} to {} cases, not {}", fewest, most,
                                 command.case_files.size()));
}

void expect_place(const CompareCommand& command) {
  if (!command.out) return;
  try {
    viz::expect_page_writable(*command.out, command.overwrite);
  } catch (const std::runtime_error& error) {
    throw InputError(error.what());
  }
}

/// Keys in which the files differ, in the order in which the first file has them.
std::vector<viz::InputDifference> input_differences(const std::vector<cases::Case>& scenarios) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::string>> values;
  for (std::size_t i = 0; i < scenarios.size(); ++i)
    for (const cases::WrittenValue& written :
         cases::written_values(scenarios[i].text, scenarios[i].file)) {
      auto& row = values[written.key];
      if (row.empty()) {
        row.resize(scenarios.size());
        order.push_back(written.key);
      }
      row[i] = written.text;
    }
  std::vector<viz::InputDifference> differences;
  for (const std::string& key : order) {
    const auto& row = values[key];
    if (key == "title" || std::equal(row.begin() + 1, row.end(), row.begin())) continue;
    differences.push_back({key, row});
  }
  return differences;
}

void write_page(const viz::ComparedCases& cases, const CompareCommand& command) {
  if (!command.out) return;
  try {
    viz::write_page(*command.out, viz::compare_page(cases, command.answers), command.overwrite);
  } catch (const std::runtime_error& error) {
    throw InputError(error.what());
  }
}

}  // namespace

int carry_out(const CompareCommand& command) {
  expect_cases(command);
  expect_place(command);
  std::vector<cases::Case> scenarios;
  std::vector<sim::Setup> setups;
  for (const auto& file : command.case_files) {
    scenarios.push_back(cases::read(file));
    setups.push_back(sim::set_up(scenarios.back()));
  }
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  viz::ComparedCases compared;
  std::vector<sim::CaseFacts> facts;
  for (std::size_t i = 0; i < setups.size(); ++i) {
    compared.results.push_back(sim::run(
        setups[i],
        [&](double share, std::string_view what) {
          const auto count = static_cast<double>(setups.size());
          line.show((static_cast<double>(i) + share) / count, what);
        },
        stop.token()));
    if (stop.token().stop_requested()) throw sim::Stopped();
    facts.push_back(sim::facts_of(setups[i], compared.results.back(),
                                  static_cast<char>('A' + static_cast<int>(i))));
  }
  line.wipe();
  compared.comparison = sim::compare(std::move(facts));
  compared.inputs = input_differences(scenarios);
  write_page(compared, command);
  if (!command.quiet) std::cout << compare_text(compared, stdout_style());
  if (!command.quiet && command.out) std::cout << "\nThe page: " << command.out->string() << '\n';
  return done;
}

}  // namespace drumlin::app
